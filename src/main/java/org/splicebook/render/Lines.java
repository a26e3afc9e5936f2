package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Text laid out in lines of a width. */
final class Lines {
    private static final String BULLET = "- ";
    private static final int STEP = 4;
    private static final String SEPARATORS = ".:-,/+@";

    /** Between words; a box to tick stays with the name before it. */
    private static final Pattern BETWEEN = Pattern.compile(" +(?!(\\[ )?\\])");

    private Lines() {}

    /** {@return the text in lines of at most that many characters; words longer than a line are cut} */
    static List<String> wrap(String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : BETWEEN.split(harmless(text).trim())) {
            String rest = word;
            if (!line.isEmpty() && length(line) + 1 + length(rest) > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            while (length(rest) > width) {
                int cut = cut(rest, width);
                lines.add(rest.substring(0, cut));
                rest = rest.substring(cut);
            }
            line.append(line.isEmpty() ? "" : " ").append(rest);
        }
        lines.add(line.toString());
        return lines;
    }

    /** Cuts a name after one of its separators where there is one, so that its parts stay whole. */
    private static int cut(String word, int width) {
        int most = word.offsetByCodePoints(0, width);
        for (int i = most; i > most / 2; i--) {
            if (SEPARATORS.indexOf(word.charAt(i - 1)) >= 0) {
                return i;
            }
        }
        return most;
    }

    /** {@return the text as a bullet, its further lines indented} */
    static List<String> bullet(String text, int width) {
        return hung(BULLET, text, width);
    }

    /** {@return the text after a head, its further lines indented by the head's length; below it where the head is long} */
    static List<String> hung(String head, String text, int width) {
        int indent = length(head);
        List<String> lines = new ArrayList<>();
        if (indent > width / 2) {
            lines.addAll(wrap(head, width));
            wrap(text, width - STEP).forEach(line -> lines.add(" ".repeat(STEP) + line));
            return lines;
        }
        for (String line : wrap(text, width - indent)) {
            lines.add((lines.isEmpty() ? head : " ".repeat(indent)) + line);
        }
        return lines;
    }

    /** {@return the text without characters that could steer a terminal} */
    static String harmless(String text) {
        return text.codePoints()
                .map(c -> c == '\n' || c == '\t' ? ' ' : c)
                .map(c -> Character.isISOControl(c) || Character.getType(c) == Character.FORMAT ? '?' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    static int length(CharSequence text) {
        return Character.codePointCount(text, 0, text.length());
    }

    static String padded(String text, int width) {
        return text + " ".repeat(Math.max(0, width - length(text)));
    }
}
