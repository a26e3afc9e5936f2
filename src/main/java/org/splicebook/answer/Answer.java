package org.splicebook.answer;

import java.util.List;
import java.util.stream.Stream;

/**
 * An answer about the wiring.
 *
 * @param heading what was asked
 * @param outcome what came out, in a sentence or two; given empty, it is the number of rows
 * @param rows the rows, shown first, then possible, then excluded
 * @param sections what is to be done or known beside the rows, in the order in which it is told
 * @param assumed what was assumed, that no tap is buried in a wall always among it
 * @param notProven what the given facts do not prove
 * @param wouldSettle the cheapest test that would settle what is open
 * @param cautions the cautions that apply
 */
public record Answer(
        Heading heading,
        String outcome,
        List<Row> rows,
        List<Section> sections,
        List<String> assumed,
        List<String> notProven,
        List<String> wouldSettle,
        List<String> cautions)
        implements Reply {
    /**
     * Lines under a title.
     *
     * @param title the title
     * @param isInOrder whether the lines are steps
     * @param lines the lines
     */
    public record Section(String title, boolean isInOrder, List<String> lines) {
        public Section {
            lines = List.copyOf(lines);
        }
    }

    public Answer {
        rows = List.copyOf(rows);
        sections = List.copyOf(sections);
        outcome = outcome.isEmpty() ? counted(rows) : outcome;
        assumed = List.copyOf(assumed);
        notProven = List.copyOf(notProven);
        wouldSettle = List.copyOf(wouldSettle);
        cautions = List.copyOf(cautions);
    }

    private static String counted(List<Row> rows) {
        if (rows.isEmpty()) {
            return "The record shows nothing here. That does not mean that nothing is there.";
        }
        return count(rows, Row.Status.SHOWN) + " shown, " + count(rows, Row.Status.POSSIBLE) + " possible, "
                + count(rows, Row.Status.EXCLUDED) + " excluded.";
    }

    private static long count(List<Row> rows, Row.Status status) {
        return rows.stream().filter(r -> r.status() == status).count();
    }

    /** An answer whose outcome is how many rows it has. */
    public Answer(
            Heading heading,
            List<Row> rows,
            List<String> assumed,
            List<String> notProven,
            List<String> wouldSettle,
            List<String> cautions) {
        this(heading, "", rows, List.of(), assumed, notProven, wouldSettle, cautions);
    }

    /** {@return this with those sections, the ones without a line left out} */
    public Answer withSections(List<Section> others) {
        List<Section> told = others.stream().filter(s -> !s.lines().isEmpty()).toList();
        return new Answer(heading, outcome, rows, told, assumed, notProven, wouldSettle, cautions);
    }

    /** {@return this with more of what the facts do not prove} */
    public Answer withNotProven(List<String> more) {
        List<String> all =
                Stream.concat(notProven.stream(), more.stream()).distinct().toList();
        return new Answer(heading, outcome, rows, sections, assumed, all, wouldSettle, cautions);
    }

    /** {@return the rows of one part} */
    public List<Row> rows(Row.Status status) {
        return rows.stream().filter(r -> r.status() == status).toList();
    }

    @Override
    public int weight() {
        return 1 + rows.stream().mapToInt(r -> 1 + r.why().size()).sum();
    }
}
