package org.splicebook.graph;

import org.splicebook.problem.Problem;

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
}
