package org.splicebook.problem;

/**
 * One thing that is wrong, said so that the person who caused it can put it right.
 *
 * @param kind what sort of thing
 * @param severity whether it stops the work
 * @param where where it is
 * @param message what was found, in plain words
 * @param cure what would be right
 */
public record Problem(ProblemKind kind, Severity severity, Where where, String message, String cure) {
    /** Whether a problem stops the work. */
    public enum Severity {
        ERROR,
        WARNING
    }

    /** {@return a problem that stops the work} */
    public static Problem error(ProblemKind kind, Where where, String message, String cure) {
        return new Problem(kind, Severity.ERROR, where, message, cure);
    }

    /** {@return a problem that is told and does not stop the work} */
    public static Problem warning(ProblemKind kind, Where where, String message, String cure) {
        return new Problem(kind, Severity.WARNING, where, message, cure);
    }

    /** {@return whether it stops the work} */
    public boolean isError() {
        return severity == Severity.ERROR;
    }

    /** {@return one line for people: place, what was found, what would be right} */
    public String said() {
        String at = where.said();
        return (at.isEmpty() ? "" : at + ": ") + message + (cure.isEmpty() ? "" : " " + cure);
    }
}
