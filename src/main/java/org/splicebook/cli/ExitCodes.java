package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;

/** The one table from a kind of problem to an exit code. */
final class ExitCodes {
    /** All went well. */
    static final int OK = 0;
    /** The input has problems, or a check found something. */
    static final int FOUND = 1;
    /** The command was not typed as it has to be. */
    static final int USAGE = 2;
    /** The store cannot be reached. */
    static final int STORE_AWAY = 3;
    /** What was asked for does not exist. */
    static final int NOT_FOUND = 4;
    /** The write clashes with what is stored. */
    static final int CONFLICT = 5;
    /** A rule of the program refuses it. */
    static final int REFUSED = 6;
    /** It took longer than its limit. */
    static final int TOO_SLOW = 7;
    /** A fault of the program itself. */
    static final int INTERNAL = 70;

    private ExitCodes() {}

    static int of(ProblemKind kind) {
        return switch (kind) {
            case SYNTAX,
                    UNKNOWN_KEY,
                    BAD_VALUE,
                    BAD_NAME,
                    BAD_UNIT,
                    MISSING,
                    DANGLING_NAME,
                    DUPLICATE,
                    IN_TWO_JOINTS,
                    CABLE_NOT_HERE,
                    NO_SUCH_TERMINAL,
                    TOO_LARGE,
                    BAD_PATH -> FOUND;
            case NOT_FOUND -> NOT_FOUND;
            case STALE, CONFLICT, WOULD_LOSE, PRECONDITION_MISSING -> CONFLICT;
            case REFUSED, SIGN_IN, TOO_MANY, MEDIA_TYPE, NOT_ACCEPTABLE, METHOD -> REFUSED;
            case TOO_SLOW -> TOO_SLOW;
            case STORE_AWAY -> STORE_AWAY;
            case INTERNAL -> INTERNAL;
        };
    }

    /** {@return the code of several problems: that of the first which stops the work} */
    static int of(List<Problem> problems) {
        return problems.stream()
                .filter(Problem::isError)
                .findFirst()
                .map(p -> of(p.kind()))
                .orElse(OK);
    }

    /** {@return what each means, for the help pages} */
    static Map<String, String> said() {
        Map<String, String> said = new LinkedHashMap<>();
        said.put(" " + OK, "All went well.");
        said.put(" " + FOUND, "The input has problems, or a check found something.");
        said.put(" " + USAGE, "The command was not typed as it has to be.");
        said.put(" " + STORE_AWAY, "The store cannot be reached, or another process holds it.");
        said.put(" " + NOT_FOUND, "What was asked for does not exist.");
        said.put(" " + CONFLICT, "The write clashes with what is stored.");
        said.put(" " + REFUSED, "A rule of the program refuses it.");
        said.put(" " + TOO_SLOW, "It took longer than its limit.");
        said.put(" " + INTERNAL, "A fault of the program itself.");
        return said;
    }
}
