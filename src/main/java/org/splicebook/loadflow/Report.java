package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;

/**
 * What a report says, and what it hangs on.
 *
 * @param rows what it says, what matters most first
 * @param assumptions what every figure in it hangs on
 * @param <R> what a row is
 */
public record Report<R>(List<R> rows, List<Assumption> assumptions) {
    public Report {
        rows = List.copyOf(rows);
        assumptions = List.copyOf(assumptions);
    }

    /** {@return a report on a solved state, with what it assumes beside what the state does} */
    static <R> Report<R> on(Solution s, List<R> rows, String... assumed) {
        List<Assumption> all = new ArrayList<>(s.assumptions());
        for (String a : assumed) {
            all.add(new Assumption("", a));
        }
        return new Report<>(rows, all);
    }
}
