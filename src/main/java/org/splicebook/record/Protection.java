package org.splicebook.record;

import java.util.Locale;

/** A protective function. */
public enum Protection {
    OVERCURRENT,
    GROUND_FAULT,
    ARC_FAULT;

    /** {@return the word of the house file, for example {@code ground-fault}} */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
