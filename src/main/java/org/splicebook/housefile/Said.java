package org.splicebook.housefile;

import java.util.Collection;
import java.util.Locale;
import java.util.stream.Collectors;

/** How things that were found are put into words: short, and never able to play tricks on a terminal. */
final class Said {
    private static final int LONGEST = 60;
    private static final int MOST = 20;

    private Said() {}

    /** {@return the text in quotes, cut short, with control characters spelt out} */
    static String quoted(String text) {
        StringBuilder s = new StringBuilder("\"");
        int shown = 0;
        for (int i = 0; i < text.length() && shown < LONGEST; shown++) {
            int c = text.codePointAt(i);
            i += Character.charCount(c);
            if (Text.isHidden(c) || Character.getType(c) == Character.FORMAT || c == '\n' || c == '\t') {
                s.append(String.format(Locale.ROOT, "\\u%04x", c));
            } else {
                s.appendCodePoint(c);
            }
        }
        return s.append(text.codePointCount(0, text.length()) > LONGEST ? "...\"" : "\"")
                .toString();
    }

    /** {@return the sentence with a capital at its start} */
    static String capital(String sentence) {
        return sentence.substring(0, 1).toUpperCase(Locale.ROOT) + sentence.substring(1);
    }

    /** {@return the words with commas between, the first twenty of them} */
    static String list(Collection<String> words) {
        String first = words.stream().limit(MOST).collect(Collectors.joining(", "));
        return words.size() > MOST ? first + ", and " + (words.size() - MOST) + " more" : first;
    }
}
