package org.splicebook.rules;

import java.util.Locale;

/** How sure a finding is. */
public enum Certainty {
    /** The record shows it. */
    FOUND,
    /** It may be so. */
    POSSIBLE,
    /** The rule needs to know what the record does not say. */
    ASKED;

    /** {@return the word for it} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
