package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.splicebook.answer.Question;
import org.splicebook.property.Joined;
import org.splicebook.property.PropertyQuestions;
import org.splicebook.record.Property;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredProperty;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Form;
import org.splicebook.web.view.HouseBar;
import org.splicebook.web.view.HousePage;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Pages of a property: its units and common parts, what feeds what, its meters, and questions about all of them. */
final class PropertyPages {
    private static final String ONE = "/properties/{property}";

    private final HouseStore store;

    PropertyPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/units", this::units),
                Route.get(ONE, this::show),
                Route.get(ONE + "/questions/{question}", this::ask));
    }

    /** {@return links to the properties that there are} */
    static List<Link> links(HouseStore store) {
        return store.properties().list().stream()
                .map(r -> new Link(base(r.house()), r.name(), "revision " + r.number()))
                .toList();
    }

    /** {@return a form that finds a unit by whatever people call it} */
    static Form finder() {
        return new Form(
                "/units",
                "Find a unit",
                List.of(new Form.Field(
                        "q", "Name", "", "its number, its title, its house, its meter", true, List.of())),
                "Find it");
    }

    private void units(Context ctx) {
        String q = Objects.requireNonNullElse(ctx.queryParam("q"), "").strip().toLowerCase(Locale.ROOT);
        List<Section> sections = new ArrayList<>();
        int found = 0;
        for (Revision r : store.properties().list()) {
            Property p = store.properties()
                    .find(r.house())
                    .map(StoredProperty::property)
                    .orElse(null);
            List<Link> links = p == null
                    ? List.of()
                    : p.parts().values().stream()
                            .filter(u -> isCalled(p, u, q))
                            .map(u -> new Link(new Paths(u.house()).base(), u.said(), u.name() + ", " + building(p, u)))
                            .toList();
            found += links.size();
            sections.add(new Section(r.name(), "", links));
        }
        List<Link> houses = store.listHouses().stream()
                .filter(h ->
                        (h.house() + " " + h.name()).toLowerCase(Locale.ROOT).contains(q))
                .map(h -> new Link(new Paths(h.house()).base(), h.name(), h.house()))
                .toList();
        sections.add(new Section("Houses of that name", "", houses));
        ctx.html(Templates.page(
                "edit",
                Map.of(
                        "page",
                        new EditPage(
                                "Units called " + q,
                                found + houses.size() == 0
                                        ? "Nothing goes by that name."
                                        : found + (found == 1 ? " unit" : " units") + " of properties.",
                                Wrong.NONE,
                                List.of(),
                                sections,
                                List.of()))));
    }

    private static boolean isCalled(Property p, Property.Part u, String q) {
        String words = String.join(" ", u.name(), u.said(), u.house(), building(p, u));
        boolean byMeter = p.meters().values().stream()
                .filter(m -> u.name().equals(m.in()) || u.name().equals(m.counts()))
                .anyMatch(m ->
                        (m.name() + " " + m.number()).toLowerCase(Locale.ROOT).contains(q));
        return byMeter || words.toLowerCase(Locale.ROOT).contains(q);
    }

    private static String base(String id) {
        return "/properties/" + Paths.part(id);
    }

    private void show(Context ctx) {
        StoredProperty stored = PropertyApi.property(store, ctx);
        Property p = stored.property();
        Joined joined = PropertyApi.joined(store, stored);
        String ask = base(p.id()) + "/questions/";
        List<Form> forms = new ArrayList<>();
        List<String> parts = List.copyOf(p.parts().keySet());
        for (Question q : PropertyQuestions.list()) {
            forms.add(new Form(ask + q.id(), words(q), fields(q, p, parts), "Ask"));
        }
        List<Section> sections = new ArrayList<>(List.of(new Section(
                "Work",
                "",
                List.of(
                        new Link(base(p.id()) + "/round", "A round with one phone: what is due in all units", ""),
                        new Link(base(p.id()) + "/visits", "Open visits in all units", "")))));
        Map<String, List<Link>> byBuilding = new LinkedHashMap<>();
        p.parts()
                .values()
                .forEach(u -> byBuilding
                        .computeIfAbsent(building(p, u), k -> new ArrayList<>())
                        .add(part(joined, u)));
        byBuilding.forEach((building, links) -> sections.add(new Section(building, "", links)));
        sections.add(new Section(
                "What feeds what",
                p.linksComplete()
                        ? "All that there are, as the record says."
                        : "Those that are recorded; there may be more.",
                p.links().stream()
                        .map(l -> new Link(
                                base(p.id()) + "/questions/goes-dark?part=" + Paths.part(l.from()) + "&thing="
                                        + Paths.part(l.point().replaceAll("[.].*", "")),
                                l.said(),
                                p.basis(l).word()))
                        .toList()));
        sections.add(new Section(
                "Meters",
                "",
                p.meters().values().stream()
                        .map(m -> new Link(
                                "",
                                m.name() + (m.number() == null ? "" : ", number " + m.number()),
                                "counts " + m.in() + ":" + m.source() + ", paid by " + m.counts()))
                        .toList()));
        HouseBar bar = new HouseBar(base(p.id()), p.said(), stored.revision().number());
        ctx.html(Templates.page(
                "property",
                Map.of(
                        "title",
                        p.said(),
                        "revision",
                        bar.revision(),
                        "page",
                        new HousePage(List.of(), forms, sections))));
    }

    private static String words(Question q) {
        return switch (q.id()) {
            case "goes-dark" -> "A riser, a feeder, a house panel or a breaker is switched off or lost";
            case "other-meters" -> "Load points on another unit's meter";
            case "neutrals-across" -> "Neutrals across units";
            case "tests-due" -> "Tests that are due, unit by unit";
            case "against-type" -> "A unit against its type";
            default -> q.words();
        };
    }

    private static List<Form.Field> fields(Question q, Property p, List<String> parts) {
        List<Form.Field> fields = new ArrayList<>();
        for (Question.Parameter a : q.parameters()) {
            List<String> choices = List.of();
            if (a.name().equals("part")) {
                choices = new ArrayList<>(parts);
                if (!a.otherwise().isEmpty()) {
                    choices.add(0, a.otherwise());
                }
            } else if (a.name().equals("unit")) {
                choices = p.parts().values().stream()
                        .filter(u -> u.type() != null)
                        .map(Property.Part::name)
                        .toList();
            } else if (a.name().equals("how")) {
                choices = List.of(a.meaning().replaceAll(".*: ", "").split(", "));
            }
            fields.add(new Form.Field(
                    a.name(),
                    a.name(),
                    a.otherwise(),
                    choices.isEmpty() ? a.meaning() : "",
                    a.otherwise().isEmpty(),
                    choices));
        }
        return fields;
    }

    private static String building(Property p, Property.Part part) {
        Property.Building b = part.building() == null ? null : p.buildings().get(part.building());
        return b == null ? "Parts" : b.title() == null ? b.name() : b.title();
    }

    private static Link part(Joined joined, Property.Part part) {
        boolean isStored = joined.missing().get("parts." + part.name()) == null;
        String note = part.role() == Property.Role.COMMON ? "common" : part.type() == null ? "" : part.type();
        return new Link(
                isStored ? new Paths(part.house()).base() : "",
                part.said(),
                isStored ? note : "its record is not stored");
    }

    private void ask(Context ctx) {
        StoredProperty stored = PropertyApi.property(store, ctx);
        var reply = PropertyApi.reply(store, ctx);
        String at = "/properties/" + Paths.part(stored.property().id());
        ctx.html(Templates.page("reply", Map.of("reply", ReplyPage.of(reply), "tables", TableApi.links(reply, at))));
    }
}
