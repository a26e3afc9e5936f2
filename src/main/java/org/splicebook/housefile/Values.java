package org.splicebook.housefile;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Reads single values: text, a word of a few, a list, a map. What is wrong is told; then null or nothing is given. */
final class Values {
    private Values() {}

    static Node.@Nullable Scalar scalar(Node n, Problems problems) {
        if (n instanceof Node.Scalar s) {
            return s;
        }
        problems.error(ProblemKind.BAD_VALUE, n.at(), "Here stands " + n.said() + ".", "One value belongs here.");
        return null;
    }

    static @Nullable String text(Node n, int most, Problems problems) {
        Node.Scalar s = scalar(n, problems);
        if (s == null) {
            return null;
        }
        if (s.text().length() > most) {
            problems.error(
                    ProblemKind.TOO_LARGE,
                    s.at(),
                    "A text of " + s.text().length() + " characters.",
                    "At most " + most + " belong here.");
            return null;
        }
        if (Text.hasHidden(s.text())) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    s.at(),
                    s.said() + " has control characters or marks that turn the direction of writing.",
                    "Take them out.");
            return null;
        }
        return s.text();
    }

    /** {@return a name, or null when it breaks the rules for names} */
    static @Nullable String name(Node.Scalar s, Problems problems) {
        var wrong = Text.wrongWithName(s.text());
        if (wrong.isPresent()) {
            problems.error(
                    ProblemKind.BAD_NAME,
                    s.at(),
                    Said.capital(wrong.get()) + ".",
                    "A name has letters, digits, - and _, at most " + Limits.NAME + " of them.");
            return null;
        }
        return s.text();
    }

    static <T> @Nullable T word(Node.Scalar s, Map<String, T> words, Problems problems) {
        T t = words.get(s.text());
        if (t == null) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    s.at(),
                    s.said() + " is not one of the words that fit here.",
                    () -> Nearest.cure(s.text(), words.keySet(), "words"));
        }
        return t;
    }

    static List<Node> list(Node n, Problems problems) {
        if (n instanceof Node.Items list) {
            return list.items();
        }
        problems.error(
                ProblemKind.BAD_VALUE,
                n.at(),
                "Here stands " + n.said() + ".",
                "A list belongs here, in square brackets or with a dash before each.");
        return List.of();
    }

    static List<Node.Scalar> scalars(Node n, Problems problems) {
        List<Node.Scalar> all = new ArrayList<>();
        for (Node item : list(n, problems)) {
            Node.Scalar s = scalar(item, problems);
            if (s != null) {
                all.add(s);
            }
        }
        return all;
    }

    static List<Node.Entry> entries(Node n, Problems problems) {
        if (n instanceof Node.Entries map) {
            return map.entries();
        }
        problems.error(
                ProblemKind.BAD_VALUE,
                n.at(),
                "Here stands " + n.said() + ".",
                "A map belongs here: a name, a colon, what it is.");
        return List.of();
    }

    /** {@return as many as one thing may have; that there are more is told} */
    static <T> List<T> notTooMany(List<T> parts, Where at, Problems problems) {
        if (parts.size() <= Limits.PARTS) {
            return parts;
        }
        problems.error(
                ProblemKind.TOO_LARGE,
                at,
                parts.size() + " stand here.",
                "One thing has at most " + Limits.PARTS + " wires, terminals or boxes.");
        return parts.subList(0, Limits.PARTS);
    }

    /** {@return a day, year-month-day, or null where it is absent or broken, which the problems say} */
    static @Nullable String day(Node.@Nullable Scalar s, Problems problems) {
        if (s == null) {
            return null;
        }
        try {
            LocalDate day = LocalDate.parse(s.text());
            // Beyond year 9999 days have a sign, and no longer sort as text does.
            if (day.toString().equals(s.text()) && day.getYear() >= 0 && day.getYear() <= 9999) {
                return s.text();
            }
        } catch (DateTimeParseException e) {
            // told below, with the other ways in which it can be wrong
        }
        problems.error(
                ProblemKind.BAD_VALUE,
                s.at(),
                s.said() + " is not a day.",
                "Write year-month-day, for example 2026-03-14.");
        return null;
    }
}
