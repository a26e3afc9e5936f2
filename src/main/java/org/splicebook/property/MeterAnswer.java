package org.splicebook.property;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.record.Property;
import org.splicebook.wiring.LoadPointWiring;

/** Load points that another part's meter counts. */
final class MeterAnswer {
    static final String ALL = "all";

    private MeterAnswer() {}

    /** {@return the parts that a question is about} */
    static List<String> parts(Joined joined, PropertyQuestions.Asked asked) {
        return asked.value("part").equals(ALL)
                ? List.copyOf(joined.property().parts().keySet())
                : List.of(PropertyQuestions.part(joined, asked, "part"));
    }

    static Reply of(Joined joined, PropertyQuestions.Asked asked) {
        Counted counted = new Counted(joined);
        List<Row> rows = new ArrayList<>();
        List<String> notProven = new ArrayList<>();
        for (String part : parts(joined, asked)) {
            if (joined.wiring(part).isEmpty()) {
                notProven.add("Which meters count " + part + ": its record is not stored.");
                continue;
            }
            int unknown = 0;
            for (LoadPointWiring p : joined.wiring(part).get().loadPoints()) {
                if (Boundaries.is(joined, part, p.id())) {
                    continue;
                }
                Map<String, Counted.How> meters = new TreeMap<>(counted.point(part, p));
                unknown += meters.remove(Counted.UNKNOWN) == null ? 0 : 1;
                meters.forEach((name, how) -> row(joined, part, p, name, how, rows));
            }
            if (unknown > 0) {
                notProven.add("Which meter counts " + unknown + " load points of " + part
                        + ": none is recorded on their way.");
            }
        }
        rows.sort(Comparator.comparing(Row::status).thenComparing(Row::subject));
        return new Answer(
                asked.heading(),
                rows.isEmpty()
                        ? "The records show no load point on another part's meter. That does not mean that there is none."
                        : "",
                rows,
                List.of(),
                List.of(Assumption.NO_BURIED_TAP, "Parts touch only over the links that are listed."),
                notProven,
                rows.isEmpty()
                        ? List.of()
                        : List.of(
                                "Turn the main of the part that pays off, and look whether the load point goes out with it;"
                                        + " look at the meter while a known load runs there."),
                Caution.forWhat(Leads.TO_A_SWITCH));
    }

    private static void row(
            Joined joined, String part, LoadPointWiring p, String name, Counted.How how, List<Row> rows) {
        Property.Meter meter = joined.property().meters().get(name);
        if (meter == null || meter.counts().equals(part)) {
            return;
        }
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("part", joined.part(part).said());
        columns.put("place", OutageAnswer.place(joined, part, p.id()));
        columns.put("meter", meter.number() == null ? name : name + " (" + meter.number() + ")");
        columns.put("paid by", joined.part(meter.counts()).said());
        rows.add(new Row(
                part + ":" + p.id(),
                how.isSure() ? Row.Status.SHOWN : Row.Status.POSSIBLE,
                how.basis(),
                columns,
                how.way()));
    }
}
