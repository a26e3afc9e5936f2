package org.splicebook.property;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.record.Property;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.Sureness;

/** Who goes dark: the answer, unit by unit. */
final class OutageAnswer {
    private final Joined joined;
    private final String start;
    private final GoesDark dark;
    private final List<Row> rows = new ArrayList<>();

    private OutageAnswer(Joined joined, String start, GoesDark dark) {
        this.joined = joined;
        this.start = start;
        this.dark = dark;
    }

    static Reply of(Joined joined, PropertyQuestions.Asked asked) {
        String part = PropertyQuestions.part(joined, asked, "part");
        Loss loss = LossOf.of(
                joined.wiring(part)
                        .orElseThrow(() -> new ProblemException(Problem.error(
                                ProblemKind.NOT_FOUND,
                                Where.field("part"),
                                "The record of " + part + ", "
                                        + joined.part(part).house() + ", is not stored.",
                                "Load it first."))),
                part,
                asked.value("thing"),
                asked.value("how"));
        return new OutageAnswer(joined, part, GoesDark.of(joined, part, loss)).answer(asked);
    }

    private Answer answer(PropertyQuestions.Asked asked) {
        dark.effects()
                .forEach((part, points) -> points.forEach((point, changes) -> {
                    if (joined.from(part, point).isEmpty()) {
                        changes.forEach((change, effect) -> row(part, point, change, effect));
                    }
                }));
        dark.unrecorded()
                .forEach((part, effect) -> rows.add(whole(
                        part,
                        status(effect.sureness()),
                        effect.basis(),
                        "what feeds it is lost; its record is not stored, so its load points are not known",
                        effect.way())));
        List<String> touched = new ArrayList<>(dark.effects().keySet());
        touched.addAll(dark.unrecorded().keySet());
        List<String> notProven = new ArrayList<>();
        for (String part : joined.property().parts().keySet()) {
            List<String> open = part.equals(start) ? List.of() : joined.open(part);
            if (!open.isEmpty()) {
                rows.add(whole(
                        part, Row.Status.POSSIBLE, Basis.ASSUMED, "may change: " + String.join("; ", open), List.of()));
            } else if (!touched.contains(part) && joined.property().linksComplete()) {
                rows.add(whole(part, Row.Status.EXCLUDED, basis(part), "nothing in it changes", List.of()));
            } else if (!touched.contains(part)) {
                notProven.add(
                        "That nothing changes in " + part + ": the property does not say that its links are complete.");
            }
        }
        dark.endsNowhere().forEach(b -> notProven.add("What hangs on the boundary " + b + ": no link says it."));
        notProven.add(
                "That a wire is dead. Ask the record of the unit what must be off before a box is opened, and count every"
                        + " source of it as live.");
        rows.sort(java.util.Comparator.comparing(Row::status).thenComparing(Row::subject));
        return new Answer(
                        asked.heading(),
                        outcome(),
                        rows,
                        List.of(),
                        List.of(
                                Assumption.NO_BURIED_TAP,
                                "Every breaker that is not named is on, in every record.",
                                "Parts touch only over the links that are listed, and through no load."),
                        notProven,
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE))
                .withSections(List.of(new Answer.Section("Part by part", false, counts())));
    }

    private String outcome() {
        Map<String, int[]> counts = dark.counts();
        long off = counts.values().stream().filter(n -> n[0] > 0).count();
        long may = counts.values().stream().filter(n -> n[0] == 0 && n[1] > 0).count();
        if (rows.stream().allMatch(r -> r.status() == Row.Status.EXCLUDED)) {
            return "The record shows nothing that changes. That does not mean that nothing does.";
        }
        return "In " + off + " of " + joined.property().parts().size() + " parts load points should be off"
                + (may == 0 ? "" : ", in " + may + " more some may be off") + ".";
    }

    private List<String> counts() {
        List<String> lines = new ArrayList<>();
        dark.counts().forEach((part, n) -> {
            long all = joined.wiring(part)
                    .map(w -> w.loadPoints().stream()
                            .filter(p -> joined.from(part, p.id()).isEmpty())
                            .count())
                    .orElse(0L);
            lines.add(joined.part(part).said() + ": of " + all + " load points " + n[0] + " should be off, " + n[1]
                    + " may be off, " + n[2] + " change otherwise.");
        });
        return lines;
    }

    private void row(String part, String point, GoesDark.Change change, GoesDark.Effect effect) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("part", joined.part(part).said());
        columns.put("place", place(joined, part, point));
        columns.put("change", change.said(effect.sureness()));
        Basis basis = joined.point(part, point).map(OutageAnswer::basis).orElse(Basis.ASSUMED);
        rows.add(new Row(
                part + ":" + point, status(effect.sureness()), effect.basis().weaker(basis), columns, effect.way()));
    }

    private static Basis basis(LoadPointWiring p) {
        return p.feeds().stream().map(f -> f.way().basis()).reduce(Basis.SEEN, Basis::weaker);
    }

    private Row whole(String part, Row.Status status, Basis basis, String change, List<String> way) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("part", joined.part(part).said());
        columns.put("place", "all of it");
        columns.put("change", change);
        return new Row(part, status, basis, columns, way);
    }

    /** {@return the weakest basis of what feeds a part} */
    private Basis basis(String part) {
        Property p = joined.property();
        List<Basis> links = p.links().stream()
                .filter(l -> l.to().equals(part))
                .map(p::basis)
                .collect(Collectors.toList());
        return links.stream().reduce(p.about().basisOr(Basis.ASSUMED), Basis::weaker);
    }

    private static Row.Status status(Sureness sureness) {
        return sureness == Sureness.MAY ? Row.Status.POSSIBLE : Row.Status.SHOWN;
    }

    /** {@return what people call the place of a load point; empty where it has none} */
    static String place(Joined joined, String part, String point) {
        return joined.point(part, point)
                .map(LoadPointWiring::place)
                .flatMap(place -> joined.house(part)
                        .map(h -> h.places().containsKey(place)
                                ? h.places().get(place).said()
                                : place))
                .orElse("");
    }
}
