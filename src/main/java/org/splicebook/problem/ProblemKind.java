package org.splicebook.problem;

import java.util.Locale;

/** What sort of thing went wrong. One table elsewhere turns a kind into an HTTP status and an exit code. */
public enum ProblemKind {
    /** The text is not YAML or JSON at all. */
    SYNTAX,
    /** A key that the format does not know. */
    UNKNOWN_KEY,
    /** A value of the wrong shape: a list where a map belongs, a word that is not one of the allowed. */
    BAD_VALUE,
    /** A name that breaks the rules for names. */
    BAD_NAME,
    /** A number without its unit, or with one that does not fit. */
    BAD_UNIT,
    /** Something needed that is not there. */
    MISSING,
    /** A name that nothing answers to. */
    DANGLING_NAME,
    /** One name given twice. */
    DUPLICATE,
    /** A wire end or terminal named in two joints. */
    IN_TWO_JOINTS,
    /** A joint names a cable that does not enter its box. */
    CABLE_NOT_HERE,
    /** A device has no such terminal. */
    NO_SUCH_TERMINAL,
    /** Too large, too deep, or made to explode. */
    TOO_LARGE,
    /** A path that leads out of where it may, or is not a plain file. */
    BAD_PATH,
    /** Something that would be lost, said before it is lost. */
    WOULD_LOSE,
    /** The thing asked for does not exist. */
    NOT_FOUND,
    /** The write was made against a revision that is no longer the newest. */
    STALE,
    /** The write clashes with what is stored. */
    CONFLICT,
    /** Refused by a rule of the program (host, origin, a question that writes). */
    REFUSED,
    /** Who asks is not known, and has to be. */
    SIGN_IN,
    /** Asked too often in too short a time. */
    TOO_MANY,
    /** A body of a kind that is not read here. */
    MEDIA_TYPE,
    /** None of the forms asked for can be given. */
    NOT_ACCEPTABLE,
    /** The path is known and the method is not. */
    METHOD,
    /** A write that must say which revision it was made from, and does not. */
    PRECONDITION_MISSING,
    /** A question took longer than its limit. */
    TOO_SLOW,
    /** The store cannot be reached, or another process holds it. */
    STORE_AWAY,
    /** A fault of the program itself. */
    INTERNAL;

    /** {@return the stable code, for example {@code unknown-key}} */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
