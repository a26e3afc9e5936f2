package org.splicebook.rules;

import java.util.Locale;

/** How bad a finding is, worst first. */
public enum Severity {
    /** Someone can be shocked, or something can burn. */
    DANGER,
    /** Something is wrong and will trip, fail or be refused. */
    FAULT,
    /** Something to know or to put right when the work is open. */
    ADVICE;

    /** {@return the word for it} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
