package org.splicebook.record;

import java.util.Locale;

/** How a fact is known, from weakest to strongest. The one word for the certainty of facts. */
public enum Basis {
    /** Taken to be so; nobody looked. */
    ASSUMED,
    /** A label or a directory says so. */
    LABELLED,
    /** A test says so. */
    TESTED,
    /** Someone saw it with the box open. */
    SEEN;

    /** {@return the weaker of the two} */
    public Basis weaker(Basis other) {
        return compareTo(other) <= 0 ? this : other;
    }

    /** {@return the word of the house file} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
