package org.splicebook.problem;

import java.util.List;
import java.util.stream.Collectors;

/** Carries problems across a border that a {@link Result} cannot cross. The one unchecked exception of the program. */
public final class ProblemException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    /** Carries one or more problems. */
    public ProblemException(List<Problem> problems) {
        super(problems.stream().map(Problem::said).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** Carries one problem. */
    public ProblemException(Problem problem) {
        this(List.of(problem));
    }

    /** {@return the problems} */
    public List<Problem> problems() {
        return problems;
    }
}
