package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.housefile.SightingLine;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReadingsPage;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** The printed sheet of readings, typed back in on one page: all of it is recorded, or nothing. */
final class ReadingsPages {
    private static final String PATH = "/houses/{house}/readings";

    private final HouseStore store;

    ReadingsPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(PATH, this::show), Route.post(PATH, this::record));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> first = new LinkedHashMap<>();
        // Chosen when the page is made, so that sending it twice records it once.
        first.put("id", "r" + UUID.randomUUID().toString().substring(0, 13));
        first.put("date", LocalDate.now(ZoneId.systemDefault()).toString());
        first.put("meter", "meter");
        first.put("lamp", "lamp");
        first.put("place", Objects.requireNonNullElse(ctx.queryParam("place"), ""));
        String done = Objects.requireNonNullElse(ctx.queryParam("recorded"), "");
        ctx.html(page(
                stored,
                first,
                done.matches("\\d{1,5}") ? done + " readings were recorded. " : "",
                Map.of(),
                List.of()));
    }

    private void record(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> said = new LinkedHashMap<>();
        ctx.formParamMap()
                .forEach((name, values) ->
                        said.put(name, String.join(",", values).strip()));
        List<ReadingForm.Typed> typed = new ArrayList<>();
        ReadingForm form = new ReadingForm(stored.house());
        points(stored.house(), "").forEach(l -> typed.addAll(form.typed(l, said)));
        try {
            ctx.redirect(recorded(stored, said, typed), HttpStatus.SEE_OTHER);
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems()))
                    .html(page(stored, said, "", byField(e.problems(), typed), told(e.problems(), typed)));
        }
    }

    private String recorded(StoredHouse stored, Map<String, String> said, List<ReadingForm.Typed> typed) {
        if (typed.isEmpty()) {
            throw Failures.failure(ProblemKind.MISSING, "Nothing was filled in.", "What was not tried stays empty.");
        }
        List<Sighting> read = SightingLine.parseAll(
                        stored.house(),
                        typed.stream().map(ReadingForm.Typed::said).toList())
                .get();
        int unused = store.appendSightings(stored.house().id(), read).get();
        return new Paths(stored.house().id()).base() + "/readings?place=" + Paths.part(said.getOrDefault("place", ""))
                + "&recorded=" + typed.size();
    }

    /** {@return what is wrong, by the field of the form} */
    private static Map<String, String> byField(List<Problem> problems, List<ReadingForm.Typed> typed) {
        Map<String, String> wrong = new LinkedHashMap<>();
        for (Problem p : problems) {
            String field = field(p, typed);
            if (!field.isEmpty()) {
                wrong.merge(field, p.message() + " " + p.cure(), (a, b) -> a.equals(b) ? a : a + " " + b);
            }
        }
        return wrong;
    }

    private static String field(Problem p, List<ReadingForm.Typed> typed) {
        int line = SightingLine.line(p);
        if (line < 0 || line >= typed.size()) {
            return "";
        }
        Map<String, String> fields = typed.get(line).fields();
        String key = SightingLine.key(p);
        // Day and name are said once for all.
        return fields.getOrDefault(
                key, List.of("date", "by", "pass").contains(key) ? key : fields.getOrDefault("", ""));
    }

    private static List<Wrong.Line> told(List<Problem> problems, List<ReadingForm.Typed> typed) {
        return problems.stream()
                .map(p -> {
                    String field = field(p, typed);
                    return new Wrong.Line(
                            field.isEmpty() ? "" : "#" + Entry.id(0, field),
                            (field.isEmpty() ? "" : field.replace("/", ", ") + ": ") + p.message() + " " + p.cure());
                })
                .distinct()
                .toList();
    }

    private static List<LoadPointWiring> points(House house, String place) {
        return Derivation.derive(house).loadPoints().stream()
                .filter(l -> place.isEmpty() || place.equals(l.place()))
                .toList();
    }

    private static String page(
            StoredHouse stored,
            Map<String, String> said,
            String done,
            Map<String, String> wrong,
            List<Wrong.Line> told) {
        House house = stored.house();
        Paths paths = new Paths(house.id());
        ReadingForm form = new ReadingForm(house);
        String place = said.getOrDefault("place", "");
        List<Link> places = new ArrayList<>(List.of(
                new Link(paths.base() + "/readings", "All", ""),
                paths.sheet("readings", "", "The sheet to write them on")));
        house.places()
                .values()
                .forEach(p ->
                        places.add(new Link(paths.base() + "/readings?place=" + Paths.part(p.name()), p.said(), "")));
        List<Input> top = List.of(
                Input.hidden("id", said.getOrDefault("id", "")),
                Input.hidden("place", place),
                ReadingForm.text("date", "Day", said, wrong),
                ReadingForm.text("by", "Who read", said, wrong),
                ReadingForm.text("pass", "Pass", said, wrong),
                ReadingForm.text("meter", "Volts were read with", said, wrong),
                ReadingForm.text("lamp", "Lit was looked at with", said, wrong));
        Map<String, List<ReadingsPage.Line>> lines = new LinkedHashMap<>();
        house.places().values().forEach(p -> lines.put(p.said(), new ArrayList<>()));
        points(house, place)
                .forEach(l -> lines.computeIfAbsent(placeOf(house, l), k -> new ArrayList<>())
                        .add(new ReadingsPage.Line(l.id(), where(house, l), form.cells(l, said, wrong))));
        lines.values().removeIf(List::isEmpty);
        List<ReadingsPage.Group> groups = new ArrayList<>();
        lines.forEach((title, all) -> groups.add(new ReadingsPage.Group(
                title, lines.size() == 1 || all.stream().anyMatch(ReadingsPage.Line::isWritten), all)));
        return Templates.page(
                "readings",
                Map.of(
                        "bar",
                        Paths.bar(stored),
                        "page",
                        new ReadingsPage(
                                paths.base() + "/readings",
                                done + "What was not tried stays empty. All of it is recorded, or nothing.",
                                told,
                                places,
                                top,
                                groups,
                                Caution.forWhat(Leads.TO_A_SWITCH))));
    }

    private static String placeOf(House house, LoadPointWiring l) {
        var place = l.place() == null ? null : house.places().get(l.place());
        return place == null ? "place not recorded" : place.said();
    }

    private static String where(House house, LoadPointWiring l) {
        String shown = l.feeds().stream()
                .filter(f -> f.sureness() != Sureness.MAY)
                .map(f -> f.breaker())
                .distinct()
                .collect(Collectors.joining(" and "));
        return placeOf(house, l) + (shown.isEmpty() ? ", feed not shown" : ", " + shown);
    }
}
