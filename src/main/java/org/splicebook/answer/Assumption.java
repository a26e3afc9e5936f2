package org.splicebook.answer;

/** What answers assume, in words. */
public final class Assumption {
    /** Stands in every answer. */
    public static final String NO_BURIED_TAP = "No tap is buried inside a wall.";

    private Assumption() {}
}
