package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;

/**
 * A map of the file read by its keys. Each method gives null (or nothing) both where a key is absent and where its value
 * is wrong; what is wrong is told to {@link Problems}.
 */
final class Fields {
    private final Map<String, Node.Entry> entries = new LinkedHashMap<>();
    private final Set<String> keys;
    private final Where at;
    private final Problems problems;
    private final boolean whole;

    private Fields(Node.Entries map, Set<String> keys, Problems problems, boolean whole) {
        this.keys = keys;
        this.at = map.at();
        this.problems = problems;
        this.whole = whole;
        for (Node.Entry e : map.entries()) {
            String key = e.key().text();
            if (keys.contains(key)) {
                entries.put(key, e);
            } else {
                problems.error(
                        ProblemKind.UNKNOWN_KEY,
                        e.key().at(),
                        "The key " + Said.quoted(key) + " is not known here.",
                        () -> Nearest.cure(key, keys, "keys"));
            }
        }
    }

    /** {@return the fields of a map; nothing said counts as a map without keys; of anything else too, after a problem} */
    static Fields of(Node node, Set<String> keys, Problems problems) {
        if (node instanceof Node.Entries map) {
            return new Fields(map, keys, problems, true);
        }
        boolean nothing = node instanceof Node.Scalar s && s.isNothing();
        if (!nothing) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    node.at(),
                    "Here stands " + node.said() + ".",
                    "A map belongs here, with keys of: " + Said.list(keys) + ".");
        }
        return new Fields(new Node.Entries(List.of(), node.at()), keys, problems, nothing);
    }

    Where at() {
        return at;
    }

    /** {@return where the value of a key is, or else where the map is} */
    Where at(String key) {
        Node.Entry e = entries.get(key);
        return e == null ? at : e.value().at();
    }

    boolean has(String key) {
        return node(key) != null;
    }

    /** {@return the keys that are there, in the order in which they were written} */
    Set<String> present() {
        return entries.keySet();
    }

    /** {@return the value of a key, or null where nothing is said} */
    @Nullable
    Node node(String key) {
        if (!keys.contains(key)) {
            throw new IllegalArgumentException("no such key in the schema: " + key);
        }
        Node.Entry e = entries.get(key);
        return e == null || (e.value() instanceof Node.Scalar s && s.isNothing()) ? null : e.value();
    }

    /** Says that a key is missing, if it is, and if there is a map that could have it. */
    void need(String key, String cure) {
        if (whole && !has(key)) {
            problems.error(ProblemKind.MISSING, at, "The key " + key + " is missing.", cure);
        }
    }

    Node.@Nullable Scalar scalar(String key) {
        Node n = node(key);
        return n == null ? null : Values.scalar(n, problems);
    }

    @Nullable
    String text(String key) {
        Node n = node(key);
        return n == null ? null : Values.text(n, Limits.TEXT, problems);
    }

    String text(String key, String otherwise) {
        String t = text(key);
        return t == null ? otherwise : t;
    }

    @Nullable
    String note() {
        return note("note");
    }

    /** {@return a longer text} */
    @Nullable
    String note(String key) {
        Node n = node(key);
        return n == null ? null : Values.text(n, Limits.NOTE, problems);
    }

    @Nullable
    Quantity quantity(String key, Unit.Dimension dimension, @Nullable Unit implied) {
        Node.Scalar s = scalar(key);
        return s == null ? null : Quantities.read(s, dimension, implied, problems);
    }

    @Nullable
    Quantity amperes(String key) {
        return quantity(key, Unit.Dimension.CURRENT, null);
    }

    @Nullable
    Integer integer(String key, int least, int most) {
        Node.Scalar s = scalar(key);
        if (s == null) {
            return null;
        }
        if (s.text().matches("[0-9]{1,6}")) {
            int i = Integer.parseInt(s.text());
            if (i >= least && i <= most) {
                return i;
            }
        }
        problems.error(
                ProblemKind.BAD_VALUE,
                s.at(),
                s.said() + " does not fit here.",
                "A whole number from " + least + " to " + most + " belongs here.");
        return null;
    }

    double number(String key, double otherwise) {
        Node.Scalar s = scalar(key);
        if (s == null) {
            return otherwise;
        }
        if (s.text().matches("[0-9]{1,6}(\\.[0-9]{1,6})?")) {
            return Double.parseDouble(s.text());
        }
        problems.error(ProblemKind.BAD_VALUE, s.at(), s.said() + " is not a number.", "A number belongs here.");
        return otherwise;
    }

    @Nullable
    Boolean yesNo(String key) {
        return word(key, Words.YES_NO);
    }

    boolean yesNo(String key, boolean otherwise) {
        Boolean b = yesNo(key);
        return b == null ? otherwise : b;
    }

    <T> @Nullable T word(String key, Map<String, T> words) {
        Node.Scalar s = scalar(key);
        return s == null ? null : Values.word(s, words, problems);
    }

    <T> T word(String key, Map<String, T> words, T otherwise) {
        T t = word(key, words);
        return t == null ? otherwise : t;
    }

    /** {@return the words of a list; null where the key is absent} */
    <T> @Nullable Set<T> words(String key, Map<String, T> words) {
        if (!has(key)) {
            return null;
        }
        Set<T> all = new LinkedHashSet<>();
        for (Node.Scalar s : scalars(key)) {
            T t = Values.word(s, words, problems);
            if (t != null) {
                all.add(t);
            }
        }
        return all;
    }

    List<Node> list(String key) {
        Node n = node(key);
        return n == null ? List.of() : Values.list(n, problems);
    }

    List<Node.Scalar> scalars(String key) {
        Node n = node(key);
        return n == null ? List.of() : Values.scalars(n, problems);
    }

    /** {@return one scalar, or those of a list} */
    List<Node.Scalar> oneOrMore(String key) {
        return node(key) instanceof Node.Scalar s ? List.of(s) : scalars(key);
    }

    List<String> texts(String key) {
        List<String> all = new ArrayList<>();
        for (Node.Scalar s : scalars(key)) {
            String t = Values.text(s, Limits.TEXT, problems);
            if (t != null) {
                all.add(t);
            }
        }
        return all;
    }

    /** {@return the entries of a map whose keys are names of any sort} */
    List<Node.Entry> map(String key) {
        Node n = node(key);
        return n == null ? List.of() : Values.entries(n, problems);
    }

    /** {@return what may be said of anything: basis, age, note} */
    Provenance about() {
        return new Provenance(
                word("basis", Words.BASIS),
                text("since"),
                text("before"),
                text("permit"),
                note(),
                keys.contains(PhotoReader.KEY) ? PhotoReader.read(this, PhotoReader.KEY, problems) : List.of(),
                keys.contains(PhotoReader.DOCUMENTS)
                        ? PhotoReader.read(this, PhotoReader.DOCUMENTS, problems)
                        : List.of());
    }
}
