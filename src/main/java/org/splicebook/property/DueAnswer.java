package org.splicebook.property;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueTests;

/** What is due in all units, building by building, for one round with one phone. */
final class DueAnswer {
    static final String TODAY = "today";

    private DueAnswer() {}

    static Reply of(Joined joined, PropertyQuestions.Asked asked) {
        LocalDate on = day(asked.value("on"));
        int within = days(asked.value("within"));
        List<Row> rows = new ArrayList<>();
        List<String> notProven = new ArrayList<>();
        List<String> counts = new ArrayList<>();
        List<String> parts = new ArrayList<>(MeterAnswer.parts(joined, asked));
        parts.sort(Comparator.comparing((String p) -> building(joined, p)));
        for (String part : parts) {
            House house = joined.house(part).orElse(null);
            if (house == null) {
                notProven.add("What is due in " + part + ": its record is not stored.");
                continue;
            }
            List<Due> due = DueTests.of(house, on, within, false).stream()
                    .filter(Due::isWanted)
                    .toList();
            due.forEach(d -> rows.add(row(joined, part, house, d)));
            if (!due.isEmpty()) {
                counts.add(joined.part(part).said() + ": " + due.size());
            }
        }
        notProven.add(
                "That what is not listed works: only recorded things and recorded tests are counted. What changes ask to be"
                        + " tested again is told by the question due of each unit.");
        return new Answer(
                        asked.heading(),
                        rows.isEmpty() ? "By the records no test is due." : rows.size() + " tests are due.",
                        rows,
                        List.of(),
                        List.of(),
                        notProven,
                        List.of(),
                        Caution.forWhat(Leads.TO_A_SWITCH))
                .withSections(List.of(new Answer.Section("Part by part", false, counts)));
    }

    private static Row row(Joined joined, String part, House house, Due d) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("part", joined.part(part).said());
        columns.put("building", building(joined, part));
        var place = d.place() == null ? null : house.places().get(d.place());
        columns.put("place", place == null ? "" : place.said());
        columns.put("test", d.kind().title());
        columns.put(
                "last",
                d.last() == null ? "" : d.last().date() + ": " + d.last().result());
        columns.put("due", d.on().equals(DueTests.LONG_PAST) ? "now" : d.on().toString());
        columns.put("because", d.state().words());
        Basis basis = d.last() == null ? Basis.ASSUMED : Basis.TESTED;
        return new Row(part + ":" + d.subject(), Row.Status.SHOWN, basis, columns, List.of());
    }

    private static String building(Joined joined, String part) {
        String key = joined.part(part).building();
        Property.Building b = key == null ? null : joined.property().buildings().get(key);
        return b == null ? "" : b.title() == null ? b.name() : b.title();
    }

    private static LocalDate day(String on) {
        if (on.equals(TODAY)) {
            return LocalDate.now(ZoneId.systemDefault());
        }
        try {
            return LocalDate.parse(on);
        } catch (DateTimeParseException e) {
            throw wrong("on", "'" + on + "' is no day.", "Write it as 2026-05-01.");
        }
    }

    private static int days(String within) {
        if (!within.matches("[0-9]{1,4}")) {
            throw wrong("within", "'" + within + "' is no number of days.", "Give 0 to 9999.");
        }
        return Integer.parseInt(within);
    }

    private static ProblemException wrong(String field, String found, String cure) {
        return new ProblemException(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }
}
