package org.splicebook.ask;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.survey.SagTree;
import org.splicebook.wiring.LoadPointWiring;

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

    private static final Pattern LOAD = Pattern.compile("(\\S+)\\s+([0-9.]+)\\s*(?i:a|amp|amps|amperes)?");
    private static final Pattern FALL = Pattern.compile("(\\S+)\\s+(-?[0-9.]+)(?:/(-?[0-9.]+))?\\s*(?i:v)?");

    private final Asked asked;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> names;

    private SagOrder(Asked asked) {
        this.asked = asked;
        this.names =
                asked.wiring().loadPoints().stream().map(LoadPointWiring::id).toList();
    }

    private void bad(ProblemKind kind, String field, String what, String cure) {
        problems.add(Problem.error(kind, Where.field(field), what, cure));
    }

    private List<SagTree.Reading> readings() {
        List<SagTree.Reading> all = new ArrayList<>();
        for (String one : asked.value("sags").split("[;\\n]")) {
            String[] parts = one.split(":", 2);
            Matcher load = LOAD.matcher(parts[0].strip());
            if (one.isBlank()) {
                continue;
            }
            if (parts.length < 2 || !load.matches() || number(load.group(2)) == null) {
                bad(
                        ProblemKind.BAD_VALUE,
                        "sags",
                        "\"" + one.strip() + "\" is not a set of readings.",
                        "Write living-1.top 10 A: living-1.top 2.3/1.1, living-2.top 1.2/0.6");
                continue;
            }
            known(load.group(1));
            for (String f :
                    Arrays.stream(parts[1].split(",")).map(String::strip).toList()) {
                Matcher fall = FALL.matcher(f);
                Double amperes = number(load.group(2));
                Double sag = fall.matches() ? number(fall.group(2)) : null;
                if (amperes == null || amperes <= 0 || sag == null) {
                    bad(
                            ProblemKind.BAD_VALUE,
                            "sags",
                            "\"" + f + "\" is not a reading.",
                            "Write an outlet, the volts that it fell by and, after a slash, the volts that its neutral rose.");
                    continue;
                }
                known(fall.group(1));
                all.add(new SagTree.Reading(
                        load.group(1),
                        amperes,
                        fall.group(1),
                        sag,
                        fall.group(3) == null ? null : number(fall.group(3))));
            }
        }
        return all;
    }

    private void known(String name) {
        if (!names.contains(name)) {
            bad(ProblemKind.NOT_FOUND, "sags", "The house has no load point " + name + ".", Nearest.cure(name, names));
        }
    }

    private static @Nullable Double number(String said) {
        try {
            return Double.parseDouble(said);
        } catch (NumberFormatException e) {
            return null;
        }
    }

    private Answer answer() {
        List<SagTree.Reading> readings = readings();
        Double source = number(asked.value("elsewhere"));
        if (source == null || source < 0 || source > 5) {
            bad(
                    ProblemKind.BAD_VALUE,
                    "elsewhere",
                    "\"" + asked.value("elsewhere") + "\" is not in ohms.",
                    "Write 0.04.");
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        SagTree tree = SagTree.of(readings, source == null ? 0 : source);
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
