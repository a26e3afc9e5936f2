package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.TestResult;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueCalendar;
import org.splicebook.upkeep.DueTests;
import org.splicebook.upkeep.TestKind;
import org.splicebook.upkeep.TestKinds;
import org.splicebook.upkeep.TestLog;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Tests of a house: what is due, recording of outcomes, what was recorded, and a calendar of what is due. */
final class TestPages {
    private static final String API = Api.BASE + "/houses/{house}";
    private static final int AHEAD = 31;
    private static final int CALENDAR_AHEAD = 400;

    private final HouseStore store;
    private final int largestBody;

    TestPages(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(Route.get(API + "/due.ics", this::calendar), Route.post(API + "/tests", this::append));
    }

    List<Route> pages() {
        return List.of(
                Route.get("/houses/{house}/tests", ctx -> ctx.html(page(Sent.house(store, ctx), Map.of(), Wrong.NONE))),
                Route.post("/houses/{house}/tests", this::record));
    }

    private static LocalDate today() {
        return LocalDate.now(ZoneId.systemDefault());
    }

    private void calendar(Context ctx) {
        House house = Sent.house(store, ctx).house();
        boolean all = "all".equals(ctx.queryParam("tests"));
        LocalDate today = today();
        List<Due> due = DueTests.of(house, today, CALENDAR_AHEAD, all).stream()
                .filter(Due::isWanted)
                .toList();
        ctx.contentType("text/calendar; charset=utf-8")
                .header("Content-Disposition", "attachment; filename=\"" + house.id() + "-due.ics\"")
                .result(DueCalendar.of(Map.of(house, due), today));
    }

    private void append(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        List<Map<String, String>> tests = new ArrayList<>();
        body.path("tests").forEach(t -> {
            Map<String, String> said = new LinkedHashMap<>();
            t.properties().forEach(e -> said.put(e.getKey(), e.getValue().asText()));
            tests.add(said);
        });
        if (tests.isEmpty()) {
            throw Failures.failure(
                    ProblemKind.MISSING,
                    "No test is sent.",
                    "Send {\"tests\": [{\"what\": \"trip-button\", \"device\": \"bath-gf\", \"result\": \"passed\"}]}.");
        }
        Revision made = append(ctx, tests, Api.who(ctx));
        ObjectNode answer = RevisionJson.write(made);
        ctx.header("ETag", Tags.of(made));
        Api.json(ctx, answer);
    }

    private Revision append(Context ctx, List<Map<String, String>> tests, String who) {
        return TestLog.append(store, Api.house(ctx), tests, today().toString(), who);
    }

    private void record(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> said = new TreeMap<>();
        for (String name : List.of("what", "result", "date", "by", "note")) {
            said.put(name, Sent.field(ctx, name));
        }
        List<String> devices = ctx.formParams("device");
        said.put("device", String.join(",", devices));
        Sent.attempt(
                ctx,
                () -> {
                    if (devices.isEmpty()) {
                        throw Failures.failure(
                                "device", ProblemKind.MISSING, "Nothing is chosen.", "Choose what was tested.");
                    }
                    List<Map<String, String>> tests = new ArrayList<>();
                    for (String d : devices) {
                        Map<String, String> one = new LinkedHashMap<>();
                        said.forEach((k, v) -> {
                            if (!v.isEmpty()) {
                                one.put(k, v);
                            }
                        });
                        one.put("device", d);
                        tests.add(one);
                    }
                    Revision made = append(ctx, tests, "someone at the pages");
                    String here = new Paths(stored.house().id()).base() + "/tests";
                    // What was sent twice is recorded once, and the newest revision is then somebody's.
                    return made.number() > stored.revision().number() ? Just.stored(here, made) : here;
                },
                wrong -> page(stored, said, wrong));
    }

    private String page(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        House house = stored.house();
        Paths paths = new Paths(house.id());
        List<Input.Choice> devices = new ArrayList<>();
        Map<String, String> why = new LinkedHashMap<>();
        for (Due d : DueTests.of(house, today(), AHEAD, true)) {
            String words = d.subject() + (d.place() == null ? "" : ", " + place(house, d.place()));
            why.merge(
                    d.subject(),
                    words
                            + (d.isWanted() && d.kind().isUsual()
                                    ? ": " + d.kind().title() + ", " + d.state().words()
                                    : ""),
                    (a, b) -> a.contains(": ") ? a : b);
        }
        again(house).forEach(p -> why.putIfAbsent(p, p + ": after a change"));
        why.forEach((name, words) -> devices.add(new Input.Choice(name, words)));
        List<Input.Choice> kinds = TestKinds.all().stream()
                .map(k -> new Input.Choice(k.id(), k.title()))
                .toList();
        List<Input> inputs = List.of(
                Input.chosen(
                        Input.Kind.ONE, "what", "Test", said.getOrDefault("what", TestKinds.TRIP_BUTTON), "", kinds),
                Input.chosen(
                        Input.Kind.SOME,
                        "device",
                        "Tested",
                        said.getOrDefault("device", ""),
                        "several with one outcome go together",
                        devices),
                Input.typed(
                        Input.Kind.TEXT,
                        "result",
                        "Outcome",
                        said.getOrDefault("result", "passed"),
                        "passed, failed, or a reading as 28 in-lb",
                        true),
                Input.typed(Input.Kind.TEXT, "date", "Day", said.getOrDefault("date", today().toString()), "", true),
                Input.typed(Input.Kind.TEXT, "by", "Who tested", said.getOrDefault("by", ""), "", false),
                Input.typed(Input.Kind.TEXT, "note", "Note", said.getOrDefault("note", ""), "", false));
        List<Section> sections = new ArrayList<>();
        sections.add(new Section(
                "What is due",
                "",
                List.of(
                        new Link(paths.base() + "/questions/due", "What is due, and what changes ask for", ""),
                        new Link(
                                Api.BASE + "/houses/" + Paths.part(house.id()) + "/due.ics",
                                "A calendar of it",
                                "iCalendar"))));
        sections.add(new Section(
                "How", "", TestKinds.all().stream().map(TestPages::how).toList()));
        sections.add(new Section(
                "Recorded",
                "The newest first.",
                house.tests().stream()
                        .sorted(Comparator.comparing(TestResult::date).reversed())
                        .map(t -> new Link(
                                "",
                                t.date() + ": " + t.device() + ", " + title(t.what()) + ": " + t.result(),
                                Objects.requireNonNullElse(t.by(), "") + (t.note() == null ? "" : " " + t.note())))
                        .toList()));
        return Sent.page(
                stored,
                new EditPage(
                        "Tests",
                        "What was tested, and how it ended. What failed goes to someone who may repair it.",
                        wrong,
                        List.of(new Entry(paths.base() + "/tests", "Record an outcome", inputs, "Record it")),
                        sections,
                        Caution.forWhat(Leads.TO_A_SWITCH)));
    }

    /** {@return the load points that changes ask to be tested again, where the store can tell} */
    private List<String> again(House house) {
        Result<Reply> due = store.ask("due", house.id(), Map.of());
        return due.isOk() && due.get() instanceof Answer a
                ? a.rows().stream()
                        .filter(r -> r.columns().get(Row.REVISION) instanceof Number)
                        .map(Row::subject)
                        .toList()
                : List.of();
    }

    private static Link how(TestKind k) {
        return new Link(
                "", k.title() + ": " + k.how(), k.months() == 0 ? k.source() : k.months() + " months, " + k.source());
    }

    private static String title(String what) {
        return TestKinds.find(what).map(TestKind::title).orElse(what);
    }

    private static String place(House house, String key) {
        var place = house.places().get(key);
        return place == null ? key : place.said();
    }
}
