package org.splicebook.web;

import java.util.List;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;

/** The one table from a kind of problem to its HTTP status. */
final class Statuses {
    private Statuses() {}

    static int of(ProblemKind kind) {
        return switch (kind) {
            case SYNTAX -> 400;
            case UNKNOWN_KEY,
                    BAD_VALUE,
                    BAD_NAME,
                    BAD_UNIT,
                    MISSING,
                    DANGLING_NAME,
                    DUPLICATE,
                    IN_TWO_JOINTS,
                    CABLE_NOT_HERE,
                    NO_SUCH_TERMINAL,
                    BAD_PATH -> 422;
            case TOO_LARGE -> 413;
            case WOULD_LOSE, CONFLICT -> 409;
            case NOT_FOUND -> 404;
            case STALE -> 412;
            case SIGN_IN -> 401;
            case REFUSED -> 403;
            case TOO_MANY -> 429;
            case MEDIA_TYPE -> 415;
            case NOT_ACCEPTABLE -> 406;
            case METHOD -> 405;
            case PRECONDITION_MISSING -> 428;
            case TOO_SLOW -> 504;
            case STORE_AWAY -> 503;
            case INTERNAL -> 500;
        };
    }

    /** {@return the status of several: that of the first which stops the work} */
    static int of(List<Problem> problems) {
        return problems.stream()
                .filter(Problem::isError)
                .findFirst()
                .map(p -> of(p.kind()))
                .orElse(500);
    }

    /** {@return the kind that a status of the server itself stands for} */
    static ProblemKind kind(int status) {
        for (ProblemKind kind : ProblemKind.values()) {
            if (of(kind) == status) {
                return kind;
            }
        }
        return status < 500 ? ProblemKind.REFUSED : ProblemKind.INTERNAL;
    }
}
