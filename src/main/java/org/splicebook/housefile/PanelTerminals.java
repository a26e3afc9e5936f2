package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;

/** The terminals of a panel: bars, lugs, and those of its breakers. */
final class PanelTerminals {
    private static final Set<String> FIXED = Set.of("n", "g", "line-1", "line-2", "line-3");
    private static final String NEUTRAL = ".neutral";

    private PanelTerminals() {}

    /** {@return whether a word can only be, or is, a terminal of the panel} */
    static boolean looksLikeOne(String word, Panel panel) {
        return FIXED.contains(word)
                || word.matches("line-?[0-9]{1,3}|[1-9][0-9]{0,2}[a-d]?")
                || (word.endsWith(NEUTRAL)
                        && breakerIn(panel, beforeNeutral(word)).isPresent());
    }

    /** {@return the names of all its terminals} */
    static List<String> names(Panel panel) {
        List<String> names = new ArrayList<>();
        for (Breaker b : panel.breakers().values()) {
            names.addAll(b.spaces());
            if (b.neutralTerminal()) {
                names.add(b.spaces().get(0) + NEUTRAL);
            }
        }
        names.addAll(List.of("n", "g", "line-1", "line-2", "line-3"));
        return names;
    }

    /** {@return whether the panel has that terminal; if not, that is told} */
    static boolean check(Panel panel, String word, Where at, Problems problems) {
        if (FIXED.contains(word)) {
            return true;
        }
        if (word.endsWith(NEUTRAL)) {
            Optional<Breaker> breaker = breakerIn(panel, beforeNeutral(word));
            String right = breaker.map(b -> b.spaces().get(0) + NEUTRAL).orElse("");
            boolean has = breaker.isPresent() && breaker.get().neutralTerminal();
            if (has && right.equals(word)) {
                return true;
            }
            problems.error(
                    ProblemKind.NO_SUCH_TERMINAL,
                    at,
                    "The panel " + panel.name() + " has no terminal " + Said.quoted(word) + ".",
                    has
                            ? "Name the breaker's first space: " + right + "."
                            : "If the breaker has a neutral terminal, give it neutral: yes.");
            return false;
        }
        if (breakerIn(panel, word).isPresent()) {
            return true;
        }
        problems.error(
                ProblemKind.NO_SUCH_TERMINAL,
                at,
                "The panel " + panel.name() + " has no breaker or fuse in " + Said.quoted(word) + ".",
                () -> "It has the terminals " + Said.list(names(panel)) + ". List the breaker first.");
        return false;
    }

    private static String beforeNeutral(String word) {
        return word.substring(0, word.length() - NEUTRAL.length());
    }

    private static Optional<Breaker> breakerIn(Panel panel, String space) {
        return panel.breakers().values().stream()
                .filter(b -> b.spaces().contains(space))
                .findFirst();
    }
}
