package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.survey.SagTree;

/** In which order do outlets lie along their circuit, and where do feed and return part, by how voltages sag under a test load? */
final class SagOrder {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "sag-order", "In which order do these outlets lie along their circuit, by how voltages sag?")
            .with(
                    "sags",
                    "for each outlet with the load, what every outlet fell by in volts, and what its neutral rose to ground after a slash:"
                            + " living-1.top 10 A: living-1.top 2.3/1.1, living-2.top 1.2/0.6; living-2.top 10 A: living-2.top 1.2/0.6")
            .with(
                    "elsewhere",
                    "ohms by which an outlet of another circuit on the same leg sags meanwhile (its volts over the amperes)",
                    "0")
            .columns("behind", "ohms", "step", "note")
            .by(asked -> new SagOrder(asked).answer());

    private final Asked asked;

    private SagOrder(Asked asked) {
        this.asked = asked;
    }

    private Answer answer() {
        SagTree tree = SagReader.read(asked);
        List<Row> rows = new ArrayList<>();
        for (SagTree.Outlet o : tree.outlets()) {
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("behind", o.behind() == null ? "none of these" : o.behind());
            columns.put("ohms", ohms(o.ohms()));
            columns.put("step", ohms(o.step()));
            columns.put(
                    "note",
                    o.step() > SagTree.BAD_STEP_OHMS
                            ? "a long cable, or a bad connection on the way: compare with its length"
                            : "");
            rows.add(new Row(o.name(), Row.Status.POSSIBLE, Basis.TESTED, columns, List.of()));
        }
        List<String> circuits =
                tree.circuits().stream().map(c -> String.join(", ", c)).toList();
        List<String> parted = tree.parted().stream()
                .map(p -> p.one() + " and " + p.other() + ": feeds share " + ohms(p.feed()) + ", returns "
                        + ohms(p.back()) + ". One of them returns another way.")
                .toList();
        List<String> odd = tree.unlikeATree().stream()
                .map(t -> String.join(", ", t) + ": a ring, a second neutral, or a wrong reading")
                .toList();
        String outcome = tree.outlets().size() + " outlets on " + circuits.size()
                + (circuits.size() == 1 ? " circuit" : " circuits") + ", nearest the panel first"
                + (parted.isEmpty() ? "." : "; feed and return part at " + parted.size() + " pairs.");
        return new Answer(
                        asked.heading(),
                        outcome,
                        rows,
                        List.of(),
                        List.of(
                                Assumption.NO_BURIED_TAP,
                                "That nothing else was switched meanwhile, and that feed and return of a cable are of one size."),
                        List.of(
                                "That outlets which share nothing but the source are on different breakers: two home runs may leave one."),
                        List.of(
                                "Switch the load on and off several times and average; the line drifts by half a volt."),
                        Caution.forWhat(Leads.TO_A_SWITCH))
                .withSections(List.of(
                        new Answer.Section("Share more than the source", false, circuits),
                        new Answer.Section("Feed and return part: a borrowed neutral", false, parted),
                        new Answer.Section("Not like a tree", false, odd)));
    }

    private static String ohms(double r) {
        return String.format(Locale.ROOT, "%.3f ohm", r);
    }
}
