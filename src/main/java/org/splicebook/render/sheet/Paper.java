package org.splicebook.render.sheet;

import java.util.Locale;

/** The paper that a sheet is printed on, upright. */
public enum Paper {
    /** 210 by 297 mm (ISO 216). */
    A4,
    /** 8.5 by 11 inches. */
    LETTER;

    /** {@return its name in a style sheet's {@code size}} */
    public String size() {
        return this == A4 ? "A4" : "letter";
    }

    /** {@return the word in commands and addresses} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
