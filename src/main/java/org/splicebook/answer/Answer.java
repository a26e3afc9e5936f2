package org.splicebook.answer;

import java.util.List;

/**
 * An answer about the wiring.
 *
 * @param heading what was asked
 * @param rows the rows, shown first, then possible, then excluded
 * @param assumed what was assumed, that no tap is buried in a wall always among it
 * @param notProven what the given facts do not prove
 * @param wouldSettle the cheapest test that would settle what is open
 * @param cautions the cautions that apply
 */
public record Answer(
        Heading heading,
        List<Row> rows,
        List<String> assumed,
        List<String> notProven,
        List<String> wouldSettle,
        List<String> cautions)
        implements Reply {
    public Answer {
        rows = List.copyOf(rows);
        assumed = List.copyOf(assumed);
        notProven = List.copyOf(notProven);
        wouldSettle = List.copyOf(wouldSettle);
        cautions = List.copyOf(cautions);
    }

    /** {@return the rows of one part} */
    public List<Row> rows(Row.Status status) {
        return rows.stream().filter(r -> r.status() == status).toList();
    }
}
