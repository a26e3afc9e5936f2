package org.splicebook.ask;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.survey.SagTree;
import org.splicebook.wiring.LoadPointWiring;

/** Reads how voltages sagged under a test load from the parameters {@code sags} and {@code elsewhere}. */
final class SagReader {
    private static final Pattern LOAD = Pattern.compile("(\\S+)\\s+([0-9.]+)\\s*(?i:a|amp|amps|amperes)?");
    private static final Pattern FALL = Pattern.compile("(\\S+)\\s+(-?[0-9.]+)(?:/(-?[0-9.]+))?\\s*(?i:v)?");

    private final Asked asked;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> names;

    private SagReader(Asked asked) {
        this.asked = asked;
        this.names =
                asked.wiring().loadPoints().stream().map(LoadPointWiring::id).toList();
    }

    /**
     * {@return the order that the sags show}
     *
     * @throws ProblemException with every problem of what was typed
     */
    static SagTree read(Asked asked) {
        SagReader r = new SagReader(asked);
        List<SagTree.Reading> readings = r.readings();
        Double source = number(asked.value("elsewhere"));
        if (source == null || source < 0 || source > 5) {
            r.bad(
                    ProblemKind.BAD_VALUE,
                    "elsewhere",
                    "\"" + asked.value("elsewhere") + "\" is not in ohms.",
                    "Write 0.04: the volts by which an outlet of another circuit on the same leg sags, over the amperes.");
        }
        if (!r.problems.isEmpty()) {
            throw new ProblemException(r.problems);
        }
        return SagTree.of(readings, source == null ? 0 : source);
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
}
