package org.splicebook.ask;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.Place;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueTests;
import org.splicebook.upkeep.TestKind;
import org.splicebook.upkeep.TestKinds;

/** Which tests are due: by their intervals, and after changes. */
final class DueQuestion {
    private static final String TODAY = "today";

    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "due",
                    "Which tests are due ({on}, looking {within} days ahead), and what must be tested again after changes?")
            .with("on", "the day that it is asked on, for example 2026-05-01", TODAY)
            .with("within", "how many days to look ahead", "31")
            .oneOf("tests", "which tests", "usual", "all")
            .columns("test", "place", "last", "due", "because", Row.REVISION)
            .by(DueQuestion::reply);

    private DueQuestion() {}

    private static Reply reply(Asked asked) {
        LocalDate on = day(asked.value("on"));
        int within = days(asked.value("within"));
        List<Row> rows = new ArrayList<>();
        Map<Due.State, Integer> counts = new EnumMap<>(Due.State.class);
        Map<TestKind, Boolean> kinds = new LinkedHashMap<>();
        for (Due d : DueTests.of(asked.house(), on, within, asked.value("tests").equals("all"))) {
            if (d.isWanted()) {
                counts.merge(d.state(), 1, Integer::sum);
                kinds.put(d.kind(), true);
                rows.add(row(asked, d));
            }
        }
        Retests retests = Retests.of(asked);
        for (Retests.Wanted w : retests.open()) {
            TestKind kind = TestKinds.find(w.isDevice() ? TestKinds.TRIP_BUTTON : TestKinds.AFTER_CHANGE)
                    .orElseThrow();
            kinds.put(kind, true);
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("test", kind.title());
            columns.put("place", "");
            columns.put("last", "");
            columns.put("due", "now");
            columns.put(
                    "because",
                    "revision " + w.after().number() + " of "
                            + w.after().stored().atZone(ZoneOffset.UTC).toLocalDate() + " changed what it hangs on");
            columns.put(Row.REVISION, w.after().number());
            rows.add(new Row(w.subject(), Row.Status.SHOWN, Basis.SEEN, columns, List.of()));
        }
        List<String> notProven = new ArrayList<>();
        notProven.add("That what is not listed works: only recorded things and recorded tests are counted.");
        if (retests.isCut()) {
            notProven.add(
                    "What changes before the last " + Retests.MOST + " revisions ask for: they were not looked at.");
        }
        String outcome = rows.isEmpty()
                ? "By the record no test is due."
                : counts.entrySet().stream()
                                .map(e -> e.getValue() + " " + e.getKey().words())
                                .collect(Collectors.joining(", "))
                        + (retests.open().isEmpty()
                                ? ""
                                : (counts.isEmpty() ? "" : ", ")
                                        + retests.open().size() + " after changes")
                        + ".";
        Answer answer = asked.answer(outcome, rows, notProven, List.of());
        return answer.withSections(List.of(new Answer.Section(
                "How",
                false,
                kinds.keySet().stream()
                        .map(k -> k.title() + ": " + k.how() + " (" + k.source() + ")")
                        .toList())));
    }

    private static Row row(Asked asked, Due d) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("test", d.kind().title());
        Place place = d.place() == null ? null : asked.house().places().get(d.place());
        columns.put("place", place == null ? "" : place.said());
        columns.put(
                "last",
                d.last() == null ? "" : d.last().date() + ": " + d.last().result());
        columns.put("due", d.on().equals(DueTests.LONG_PAST) ? "now" : d.on().toString());
        columns.put("because", d.state().words());
        columns.put(Row.REVISION, "");
        Basis basis = d.last() == null ? Basis.ASSUMED : Basis.TESTED;
        return new Row(d.subject(), Row.Status.SHOWN, basis, columns, List.of());
    }

    private static LocalDate day(String on) {
        if (on.equals(TODAY)) {
            return LocalDate.now(java.time.ZoneId.systemDefault());
        }
        try {
            return LocalDate.parse(on);
        } catch (DateTimeParseException e) {
            throw Asked.wrong(ProblemKind.BAD_VALUE, "on", "'" + on + "' is no day.", "Write it as 2026-05-01.");
        }
    }

    private static int days(String within) {
        if (!within.matches("[0-9]{1,4}")) {
            throw Asked.wrong(
                    ProblemKind.BAD_VALUE, "within", "'" + within + "' is no number of days.", "Give 0 to 9999.");
        }
        return Integer.parseInt(within);
    }
}
