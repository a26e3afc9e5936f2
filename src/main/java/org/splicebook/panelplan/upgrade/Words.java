package org.splicebook.panelplan.upgrade;

import java.util.Locale;

/** Figures as they are printed. */
final class Words {
    private Words() {}

    static String number(double value) {
        String text = String.format(Locale.ROOT, "%,.1f", value);
        return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
    }

    static String whole(double value) {
        return String.format(Locale.ROOT, "%,d", Math.round(value));
    }
}
