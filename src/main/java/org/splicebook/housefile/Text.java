package org.splicebook.housefile;

import java.text.Normalizer;
import java.util.Optional;

/** What text and names may hold. */
final class Text {
    private Text() {}

    /** {@return whether a character cannot be seen or turns the direction of what follows; line break and tab aside} */
    static boolean isHidden(int c) {
        if (c == '\n' || c == '\t') {
            return false;
        }
        return switch (Character.getType(c)) {
            case Character.CONTROL, Character.SURROGATE, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR ->
                true;
            default -> (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF;
        };
    }

    /** {@return whether the text holds a hidden character} */
    static boolean hasHidden(String text) {
        return text.codePoints().anyMatch(Text::isHidden);
    }

    /** {@return what is wrong with a name, if anything is} */
    static Optional<String> wrongWithName(String name) {
        if (name.isEmpty()) {
            return Optional.of("a name is empty");
        }
        if (!name.codePoints().allMatch(Text::mayBeInName)) {
            return Optional.of("the name " + Said.quoted(name) + " has characters that a name may not have");
        }
        if (name.codePointCount(0, name.length()) > Limits.NAME) {
            return Optional.of("the name " + Said.quoted(name) + " is too long");
        }
        if (!Normalizer.isNormalized(name, Normalizer.Form.NFC)) {
            return Optional.of("the name " + Said.quoted(name) + " has accents written apart from their letters");
        }
        return Optional.empty();
    }

    private static boolean mayBeInName(int c) {
        if (c == '-' || c == '_') {
            return true;
        }
        int type = Character.getType(c);
        return Character.isLetterOrDigit(c)
                || type == Character.NON_SPACING_MARK
                || type == Character.COMBINING_SPACING_MARK;
    }
}
