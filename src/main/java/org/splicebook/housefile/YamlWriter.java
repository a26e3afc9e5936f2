package org.splicebook.housefile;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** Writes YAML for people: sections in block style, what is short on one line. */
final class YamlWriter {
    private static final int WIDTH = 110;

    /** Text that means itself without quotes, in any place. */
    private static final Pattern PLAIN = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}\\p{M} ._/@+()'-]*");

    private final StringBuilder out = new StringBuilder();

    private YamlWriter() {}

    /** {@return the text of a document} */
    static String write(Node.Entries document) {
        YamlWriter w = new YamlWriter();
        for (Node.Entry e : document.entries()) {
            boolean section = isSection(e.value());
            if (section) {
                w.out.append('\n');
            }
            w.entry(e, 0, section);
        }
        return w.out.toString();
    }

    /** A map of maps, or a list of what is more than words. */
    private static boolean isSection(Node n) {
        if (n instanceof Node.Entries map) {
            return map.entries().stream().allMatch(e -> e.value() instanceof Node.Entries);
        }
        return n instanceof Node.Items list
                && !list.items().isEmpty()
                && list.items().stream().noneMatch(i -> i instanceof Node.Scalar);
    }

    private void entry(Node.Entry e, int indent, boolean block) {
        pad(indent);
        rest(e, indent, block);
    }

    /** Writes a key and its value; the line is indented already. */
    private void rest(Node.Entry e, int indent, boolean block) {
        String key = scalar(e.key().text());
        out.append(key).append(':');
        String flow = flow(e.value());
        if (!block && (indent + key.length() + 2 + flow.length() <= WIDTH || e.value() instanceof Node.Scalar)) {
            out.append(' ').append(flow).append('\n');
        } else {
            out.append('\n');
            block(e.value(), indent + 2);
        }
    }

    private void block(Node n, int indent) {
        if (n instanceof Node.Entries map) {
            map.entries().forEach(e -> entry(e, indent, false));
        } else if (n instanceof Node.Items list) {
            for (Node item : list.items()) {
                pad(indent);
                out.append("- ");
                item(item, indent + 2);
            }
        }
    }

    private void item(Node n, int indent) {
        String flow = flow(n);
        if (n instanceof Node.Entries map && indent + flow.length() > WIDTH) {
            for (int i = 0; i < map.entries().size(); i++) {
                if (i > 0) {
                    pad(indent);
                }
                rest(map.entries().get(i), indent, false);
            }
        } else {
            out.append(flow).append('\n');
        }
    }

    private void pad(int indent) {
        out.append(" ".repeat(indent));
    }

    private static String flow(Node n) {
        StringBuilder s = new StringBuilder();
        flow(n, s);
        return s.toString();
    }

    private static void flow(Node n, StringBuilder s) {
        if (n instanceof Node.Scalar scalar) {
            s.append(scalar(scalar.text()));
        } else if (n instanceof Node.Items list) {
            s.append('[');
            List<Node> items = list.items();
            for (int i = 0; i < items.size(); i++) {
                s.append(i == 0 ? "" : ", ");
                flow(items.get(i), s);
            }
            s.append(']');
        } else if (n instanceof Node.Entries map) {
            s.append('{');
            for (int i = 0; i < map.entries().size(); i++) {
                Node.Entry e = map.entries().get(i);
                s.append(i == 0 ? "" : ", ").append(scalar(e.key().text())).append(": ");
                flow(e.value(), s);
            }
            s.append('}');
        }
    }

    static String scalar(String text) {
        if (PLAIN.matcher(text).matches() && !text.endsWith(" ") && !text.equals("null")) {
            return text;
        }
        StringBuilder s = new StringBuilder("\"");
        text.codePoints().forEach(c -> quoted(c, s));
        return s.append('"').toString();
    }

    private static void quoted(int c, StringBuilder s) {
        switch (c) {
            case '"' -> s.append("\\\"");
            case '\\' -> s.append("\\\\");
            case '\n' -> s.append("\\n");
            case '\t' -> s.append("\\t");
            default -> {
                if (c == ' ' || isSeen(c)) {
                    s.appendCodePoint(c);
                } else if (c <= 0xFFFF) {
                    s.append(String.format(Locale.ROOT, "\\u%04X", c));
                } else {
                    s.append(String.format(Locale.ROOT, "\\U%08X", c));
                }
            }
        }
    }

    /** {@return whether a character can be seen, so that it may stand as it is} */
    private static boolean isSeen(int c) {
        return switch (Character.getType(c)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED,
                    Character.SPACE_SEPARATOR,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR -> false;
            default -> true;
        };
    }
}
