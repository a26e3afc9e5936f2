package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Question;
import org.splicebook.property.Joined;
import org.splicebook.property.PropertyQuestions;
import org.splicebook.record.Property;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredProperty;
import org.splicebook.web.view.Form;
import org.splicebook.web.view.HouseBar;
import org.splicebook.web.view.HousePage;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;

/** Pages of a property: its units and common parts, what feeds what, its meters, and questions about all of them. */
final class PropertyPages {
    private static final String ONE = "/properties/{property}";

    private final HouseStore store;

    PropertyPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(ONE, this::show), Route.get(ONE + "/questions/{question}", this::ask));
    }

    /** {@return links to the properties that there are} */
    static List<Link> links(HouseStore store) {
        return store.properties().list().stream()
                .map(r -> new Link(base(r.house()), r.name(), "revision " + r.number()))
                .toList();
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
        List<Section> sections = new ArrayList<>();
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
        var reply = PropertyQuestions.ask(
                        PropertyApi.joined(store, stored), ctx.pathParam("question"), QuestionApi.parameters(ctx))
                .get();
        String at = "/properties/" + Paths.part(stored.property().id());
        ctx.html(Templates.page("reply", Map.of("reply", ReplyPage.of(reply), "tables", TableApi.links(reply, at))));
    }
}
