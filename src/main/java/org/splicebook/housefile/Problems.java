package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Gathers what is wrong with a file, all of it, and tells the first hundred. */
final class Problems {
    private final List<Problem> found = new ArrayList<>();
    private int untold;

    void error(ProblemKind kind, Where where, String message, String cure) {
        error(kind, where, message, () -> cure);
    }

    /** Adds a problem whose cure takes work to find; the work is spared once nobody will read it. */
    void error(ProblemKind kind, Where where, String message, Supplier<String> cure) {
        if (found.size() >= Limits.PROBLEMS) {
            untold++;
        } else {
            found.add(Problem.error(kind, where, message, cure.get()));
        }
    }

    boolean any() {
        return !found.isEmpty();
    }

    /** {@return the problems in the order of the file, the last saying how many are not told} */
    List<Problem> inOrder() {
        List<Problem> all = new ArrayList<>(found);
        all.sort(Comparator.comparing((Problem p) ->
                        p.where().file() == null ? "" : String.valueOf(p.where().file()))
                .thenComparing(p -> p.where().line())
                .thenComparing(p -> p.where().column()));
        if (untold > 0) {
            all.add(Problem.error(
                    ProblemKind.TOO_LARGE,
                    Where.NOWHERE,
                    "And " + untold + " more problems.",
                    "Put these right first, then read the file again."));
        }
        return all;
    }
}
