package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.record.Move;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;

/** Findings about a breaker that another took the place of are neither cured nor new where the rule finds the same of the other. */
public final class Renamed {
    private Renamed() {}

    public static Comparison compare(List<Move> moves, List<Finding> before, List<Finding> after) {
        Map<String, String> names = new HashMap<>();
        for (Move m : moves) {
            if (m instanceof Move.ChangeBreaker c && c.is() != null) {
                String is = c.panel() + "." + c.is().key();
                c.was().forEach(w -> names.put(c.panel() + "." + w, is));
            }
        }
        Comparison plain = Comparison.of(before, after);
        if (names.isEmpty()) {
            return plain;
        }
        List<Finding> cured = new ArrayList<>();
        List<Finding> added = new ArrayList<>(plain.added());
        List<Comparison.Change> changed = new ArrayList<>(plain.changed());
        for (Finding f : plain.cured()) {
            String now = f.rule() + "/" + names.getOrDefault(f.subject(), f.subject());
            Finding same = plain.added().stream()
                    .filter(x -> x.key().equals(now) && !now.equals(f.key()))
                    .findFirst()
                    .orElse(null);
            if (same == null) {
                cured.add(f);
            } else {
                added.remove(same);
                changed.add(new Comparison.Change(f, same));
            }
        }
        return new Comparison(cured, added, changed, plain.same());
    }
}
