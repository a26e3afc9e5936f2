package org.splicebook.graph;

import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Leaves a transaction, so that nothing of it happens, with the problem that the caller is told. */
final class Refusal extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient Problem problem;

    Refusal(Problem problem) {
        super(problem.message(), null, false, false);
        this.problem = problem;
    }

    Problem problem() {
        return problem;
    }

    /** Refuses a write that was made from another revision than the newest. */
    static void unlessNewest(String id, long expected, Optional<Ledger.Kept> newest) {
        long number = newest.map(k -> k.revision().number()).orElse(0L);
        boolean isGone = newest.map(k -> k.revision().deleted()).orElse(true);
        if (expected == number || (expected == 0 && isGone)) {
            return;
        }
        String now = number == 0
                ? "there is no such house"
                : isGone ? "it was deleted in revision " + number : "its newest revision is " + number;
        throw new Refusal(Problem.error(
                ProblemKind.STALE,
                Where.field(id),
                expected == 0
                        ? "The house " + id + " exists already: " + now + "."
                        : "This was made from revision " + expected + " of " + id + ", and " + now + ".",
                "Take the newest revision, make the change in it, and store that."));
    }
}
