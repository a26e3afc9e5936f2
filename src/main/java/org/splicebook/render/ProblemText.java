package org.splicebook.render;

import java.util.List;
import java.util.stream.Collectors;
import org.splicebook.problem.Problem;

/** Problems as lines for people. */
public final class ProblemText {
    private ProblemText() {}

    /** {@return each problem on its line, then how many there are} */
    public static String write(List<Problem> problems) {
        String all = problems.stream()
                .map(p -> (p.isError() ? "" : "warning: ") + Lines.harmless(p.said()))
                .collect(Collectors.joining("\n"));
        long errors = problems.stream().filter(Problem::isError).count();
        long warnings = problems.size() - errors;
        String count = (errors == 1 ? "1 problem" : errors + " problems")
                + (warnings == 0 ? "" : warnings == 1 ? ", 1 warning" : ", " + warnings + " warnings");
        return all + "\n" + count + ".\n";
    }
}
