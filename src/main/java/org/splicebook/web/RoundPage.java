package org.splicebook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueTests;
import org.splicebook.upkeep.TestLog;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** A round through a building with one phone: what is due in each unit, many outcomes recorded at once; and the open visits of all units. */
final class RoundPage {
    private static final String ROUND = "/properties/{property}/round";
    /** Less than a month: what is tested every month would be due again as soon as it is done. */
    private static final int AHEAD = 14;

    private static final String SEPARATOR = "|";

    private final HouseStore store;

    RoundPage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        ROUND,
                        ctx -> ctx.html(page(PropertyApi.property(store, ctx), building(ctx), Map.of(), Wrong.NONE))),
                Route.post(ROUND, this::record),
                Route.get("/properties/{property}/visits", this::visits));
    }

    private static String building(Context ctx) {
        return Objects.requireNonNullElse(ctx.queryParam("building"), "");
    }

    private void record(Context ctx) {
        StoredProperty stored = PropertyApi.property(store, ctx);
        String building = Sent.field(ctx, "building");
        Map<String, String> said = new LinkedHashMap<>();
        for (String name : List.of("result", "date", "by", "note")) {
            said.put(name, Sent.field(ctx, name));
        }
        List<String> chosen = ctx.formParams("test");
        said.put("test", String.join(",", chosen));
        Sent.attempt(
                ctx,
                () -> {
                    if (chosen.isEmpty()) {
                        throw Failures.failure(
                                "test", ProblemKind.MISSING, "Nothing is chosen.", "Choose what was tested.");
                    }
                    record(stored.property(), chosen, said);
                    return base(stored) + "/round?building=" + Paths.part(building);
                },
                wrong -> page(stored, building, said, wrong));
    }

    /** All of them or none; where the store refuses a unit all the same, what was recorded before it is told. */
    private void record(Property property, List<String> chosen, Map<String, String> said) {
        Map<String, List<Map<String, String>>> byPart = new LinkedHashMap<>();
        for (String c : chosen) {
            String[] words = c.split("[|]", -1);
            if (words.length != 3 || !property.parts().containsKey(words[0])) {
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "'" + c + "' is nothing to test.", "Choose from the list.");
            }
            Map<String, String> test = new LinkedHashMap<>(Map.of("what", words[1], "device", words[2]));
            said.forEach((k, v) -> {
                if (!v.isEmpty() && !k.equals("test")) {
                    test.put(k, v);
                }
            });
            byPart.computeIfAbsent(words[0], k -> new ArrayList<>()).add(test);
        }
        String today = LocalDate.now(ZoneId.systemDefault()).toString();
        byPart.forEach((part, tests) -> TestLog.check(
                store, Objects.requireNonNull(property.parts().get(part)).house(), tests, today));
        List<String> done = new ArrayList<>();
        for (Map.Entry<String, List<Map<String, String>>> e : byPart.entrySet()) {
            Property.Part part = Objects.requireNonNull(property.parts().get(e.getKey()));
            try {
                var unused = TestLog.append(store, part.house(), e.getValue(), today, VisitApi.atThePages());
                done.add(part.said());
            } catch (ProblemException p) {
                if (done.isEmpty()) {
                    throw p;
                }
                List<Problem> told = new ArrayList<>(p.problems());
                told.add(Failures.problem(
                        ProblemKind.CONFLICT,
                        "Recorded before that, and kept: " + String.join(", ", done) + ".",
                        "Send the rest again."));
                throw new ProblemException(told);
            }
        }
    }

    private static String base(StoredProperty stored) {
        return "/properties/" + Paths.part(stored.property().id());
    }

    private String page(StoredProperty stored, String building, Map<String, String> said, Wrong wrong) {
        Property p = stored.property();
        LocalDate today = LocalDate.now(ZoneId.systemDefault());
        List<Input> inputs = new ArrayList<>(List.of(Input.hidden("building", building)));
        int due = 0;
        for (Property.Part part : p.parts().values()) {
            boolean isHere = building.isEmpty() || building.equals(part.building());
            Optional<House> house = isHere ? store.findHouse(part.house()).map(StoredHouse::house) : Optional.empty();
            if (house.isPresent()) {
                List<Input.Choice> choices = DueTests.of(house.get(), today, AHEAD, false).stream()
                        .filter(Due::isWanted)
                        .map(d -> choice(part, house.get(), d))
                        .toList();
                due += choices.size();
                if (!choices.isEmpty()) {
                    inputs.add(Input.chosen(
                            Input.Kind.SOME, "test", part.said(), said.getOrDefault("test", ""), "", choices));
                }
            }
        }
        inputs.add(Input.typed(
                Input.Kind.TEXT,
                "result",
                "Outcome of all that are ticked",
                said.getOrDefault("result", "passed"),
                "passed, failed, or a reading",
                true));
        inputs.add(Input.typed(Input.Kind.TEXT, "date", "Day", said.getOrDefault("date", today.toString()), "", true));
        inputs.add(Input.typed(Input.Kind.TEXT, "by", "Who tested", said.getOrDefault("by", ""), "", false));
        inputs.add(Input.typed(Input.Kind.TEXT, "note", "Note", said.getOrDefault("note", ""), "", false));
        List<Link> buildings = new ArrayList<>(List.of(new Link(base(stored) + "/round", "All buildings", "")));
        p.buildings()
                .values()
                .forEach(b -> buildings.add(new Link(
                        base(stored) + "/round?building=" + Paths.part(b.name()),
                        b.title() == null ? b.name() : b.title(),
                        "")));
        return Templates.page(
                "edit",
                Map.of(
                        "page",
                        new EditPage(
                                "A round through " + p.said(),
                                due == 0
                                        ? "By the records no test is due within " + AHEAD + " days."
                                        : due + (due == 1 ? " test is" : " tests are") + " due within " + AHEAD
                                                + " days. Tick those that ended alike.",
                                wrong,
                                due == 0
                                        ? List.of()
                                        : List.of(new Entry(base(stored) + "/round", "", inputs, "Record them")),
                                List.of(
                                        new Section("Buildings", "", buildings),
                                        new Section("The property", "", List.of(new Link(base(stored), p.said(), "")))),
                                Caution.forWhat(Leads.TO_A_SWITCH))));
    }

    private static Input.Choice choice(Property.Part part, House house, Due d) {
        var place = d.place() == null ? null : house.places().get(d.place());
        return new Input.Choice(
                part.name() + SEPARATOR + d.kind().id() + SEPARATOR + d.subject(),
                d.subject() + (place == null ? "" : ", " + place.said()) + ": "
                        + d.kind().title(),
                d.state().words());
    }

    private void visits(Context ctx) {
        StoredProperty stored = PropertyApi.property(store, ctx);
        VisitDesk desk = new VisitDesk(store);
        List<Section> sections = new ArrayList<>();
        int open = 0;
        for (Property.Part part : stored.property().parts().values()) {
            List<Link> links = store.findHouse(part.house()).isEmpty()
                    ? List.of()
                    : desk.list(part.house()).stream()
                            .filter(Visit::isOpen)
                            .map(VisitPages::link)
                            .toList();
            open += links.size();
            sections.add(new Section(part.said(), "", links));
        }
        sections.add(new Section(
                "The property",
                "",
                List.of(new Link(base(stored), stored.property().said(), ""))));
        ctx.html(Templates.page(
                "edit",
                Map.of(
                        "page",
                        new EditPage(
                                "Open visits in " + stored.property().said(),
                                open + (open == 1 ? " visit is open." : " visits are open."),
                                Wrong.NONE,
                                List.of(),
                                sections,
                                List.of()))));
    }
}
