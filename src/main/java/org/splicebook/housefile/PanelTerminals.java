package org.splicebook.housefile;

import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;

/** The terminals of a panel: bars, lugs, and those of its breakers. */
final class PanelTerminals {
    private static final List<String> FIXED = List.of("n", "g", "line-1", "line-2", "line-3");
    private static final String NEUTRAL = ".neutral";

    private final Panel panel;
    private final Map<String, Breaker> bySpace = new HashMap<>();
    private final Set<String> names = new LinkedHashSet<>();

    PanelTerminals(Panel panel) {
        this.panel = panel;
        for (Breaker b : panel.breakers().values()) {
            b.spaces().forEach(s -> bySpace.putIfAbsent(s, b));
            names.addAll(b.spaces());
            if (b.neutralTerminal()) {
                names.add(b.spaces().get(0) + NEUTRAL);
            }
        }
        names.addAll(FIXED);
    }

    /** {@return the names of all its terminals} */
    Set<String> names() {
        return names;
    }

    /** {@return whether a word can only be, or is, a terminal of the panel} */
    boolean looksLikeOne(String word) {
        return names.contains(word)
                || word.matches("line-?[0-9]{1,3}|[1-9][0-9]{0,2}[a-d]?")
                || (word.endsWith(NEUTRAL) && bySpace.containsKey(beforeNeutral(word)));
    }

    /** {@return whether the panel has that terminal; if not, that is told} */
    boolean check(String word, Where at, Problems problems) {
        if (names.contains(word)) {
            return true;
        }
        problems.error(
                ProblemKind.NO_SUCH_TERMINAL,
                at,
                "The panel " + panel.name() + " has no terminal " + Said.quoted(word) + ".",
                () -> cure(word));
        return false;
    }

    private String cure(String word) {
        Breaker breaker = word.endsWith(NEUTRAL) ? bySpace.get(beforeNeutral(word)) : null;
        if (breaker == null) {
            return "It has " + Said.list(names) + ". A space is a terminal once its breaker is listed.";
        }
        return breaker.neutralTerminal()
                ? "Name the breaker's first space: " + breaker.spaces().get(0) + NEUTRAL + "."
                : "If the breaker has a neutral terminal, give it neutral: yes.";
    }

    private static String beforeNeutral(String word) {
        return word.substring(0, word.length() - NEUTRAL.length());
    }
}
