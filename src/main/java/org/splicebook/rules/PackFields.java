package org.splicebook.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.housefile.Node;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** A map of a pack's file, read by its keys. What is wrong is gathered; what is absent or wrong reads as nothing. */
final class PackFields {
    private final Map<String, Node.Entry> entries = new LinkedHashMap<>();
    private final Where at;
    private final List<Problem> problems;

    private PackFields(Where at, List<Problem> problems) {
        this.at = at;
        this.problems = problems;
    }

    static PackFields of(Node node, Collection<String> keys, List<Problem> problems) {
        PackFields f = new PackFields(node.at(), problems);
        for (Node.Entry e : f.entriesOf(node)) {
            String key = e.key().text();
            if (keys.contains(key)) {
                f.entries.put(key, e);
            } else {
                f.wrong(
                        ProblemKind.UNKNOWN_KEY,
                        e.key().at(),
                        "The key " + e.key().said() + " is not known here.",
                        Nearest.cure(key, keys));
            }
        }
        return f;
    }

    void wrong(ProblemKind kind, Where where, String message, String cure) {
        problems.add(Problem.error(kind, where, message, cure));
    }

    Where at() {
        return at;
    }

    /** {@return where a key's value stands, else where the map does} */
    Where at(String key) {
        Node.Entry e = entries.get(key);
        return e == null ? at : e.value().at();
    }

    /** {@return where a key stands, else where the map does} */
    Where atKey(String key) {
        Node.Entry e = entries.get(key);
        return e == null ? at : e.key().at();
    }

    boolean has(String key) {
        return node(key) != null;
    }

    @Nullable
    Node node(String key) {
        Node.Entry e = entries.get(key);
        return e == null ? null : e.value();
    }

    void need(String key, String cure) {
        if (!has(key) || text(key).isBlank()) {
            wrong(ProblemKind.MISSING, at, "The key " + key + " is missing, or says nothing.", cure);
        }
    }

    String text(String key) {
        Node n = node(key);
        return n == null ? "" : text(n);
    }

    String text(Node n) {
        if (n instanceof Node.Scalar s) {
            return s.isNothing() ? "" : s.text();
        }
        wrong(ProblemKind.BAD_VALUE, n.at(), "Here stands " + n.said() + ".", "One value belongs here.");
        return "";
    }

    /** {@return one of a few words; the fallback where nothing is said or something else} */
    String word(String key, List<String> words, String fallback) {
        String w = text(key);
        if (!has(key) || words.contains(w)) {
            return has(key) ? w : fallback;
        }
        wrong(
                ProblemKind.BAD_VALUE,
                at(key),
                "\"" + w + "\" does not fit here.",
                "One of these: " + String.join(", ", words) + ".");
        return fallback;
    }

    boolean yesNo(String key) {
        return word(key, List.of("yes", "no"), "no").equals("yes");
    }

    @Nullable
    Integer year(String key) {
        String y = text(key);
        return y.isEmpty() ? null : year(y, at(key));
    }

    @Nullable
    Integer year(String y, Where where) {
        if (y.matches("[12][0-9]{3}")) {
            return Integer.valueOf(y);
        }
        wrong(ProblemKind.BAD_VALUE, where, "\"" + y + "\" is not a year.", "A year of four digits belongs here.");
        return null;
    }

    /** {@return the entries of a map, none where nothing is said} */
    List<Node.Entry> map(String key) {
        Node n = node(key);
        return n == null ? List.of() : entriesOf(n);
    }

    List<Node.Entry> entriesOf(Node n) {
        if (n instanceof Node.Entries map) {
            return map.entries();
        }
        if (!(n instanceof Node.Scalar s && s.isNothing())) {
            wrong(
                    ProblemKind.BAD_VALUE,
                    n.at(),
                    "Here stands " + n.said() + ".",
                    "A map belongs here: a key, a colon, what it is.");
        }
        return List.of();
    }

    /** {@return the words of a list, or the one word} */
    List<Node.Scalar> words(Node n) {
        List<Node.Scalar> all = new ArrayList<>();
        for (Node each : n instanceof Node.Items list ? list.items() : List.of(n)) {
            if (each instanceof Node.Scalar s) {
                all.add(s);
            } else {
                text(each);
            }
        }
        return all;
    }
}
