package org.splicebook.spreadsheet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a list is of. */
public enum ListKind {
    /** The breakers of one panel. */
    PANEL_SCHEDULE,
    /** Outlets by room. */
    OUTLETS;

    /** {@return the kind of that word} */
    public static Optional<ListKind> of(String word) {
        return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
    }

    /** {@return its word} */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
