package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;

/** Findings about a breaker that another took the place of are neither cured nor new where the rule finds the same of the other. */
public final class Renamed {
    private Renamed() {}

    /** {@return the breaker that has taken a breaker's place after the moves; the same name where none has} */
    public static String breaker(List<Move> moves, String name) {
        String now = name;
        for (Move m : moves) {
            if (m instanceof Move.ChangeBreaker c && c.is() != null) {
                String key = now.startsWith(c.panel() + ".")
                        ? now.substring(c.panel().length() + 1)
                        : "";
                now = c.was().contains(key) ? c.panel() + "." + c.is().key() : now;
            } else if (m instanceof Move.ReplacePanel p) {
                now = breaker(p, now);
            }
        }
        return now;
    }

    private static String breaker(Move.ReplacePanel m, String name) {
        String panel = m.is().name();
        if (!name.startsWith(panel + ".")) {
            return name;
        }
        String first = List.of(name.substring(panel.length() + 1).split("\\+")).get(0);
        String space = m.landings().getOrDefault(first, first);
        return m.is().breakers().values().stream()
                .filter(b -> b.spaces().contains(space))
                .findFirst()
                .map(b -> panel + "." + b.key())
                .orElse(name);
    }

    /** An island that lands several times is named by another landing where its circuits were led over. */
    private static boolean isAlike(Finding f, Finding x) {
        return x.rule().equals(f.rule())
                && x.severity() == f.severity()
                && !f.outlets().isEmpty()
                && x.outlets().equals(f.outlets())
                && x.subject().indexOf(':') > 0
                && f.subject().indexOf(':') > 0;
    }

    /** {@return what a change cured and what is new, breakers and landings known again by what landed there} */
    public static Comparison compare(House house, List<Move> moves, List<Finding> before, List<Finding> after) {
        Comparison plain = Comparison.of(before, after);
        if (moves.stream().noneMatch(m -> m instanceof Move.ChangeBreaker || m instanceof Move.ReplacePanel)) {
            return plain;
        }
        LedOver led = LedOver.of(house, moves);
        List<Finding> cured = new ArrayList<>();
        List<Finding> added = new ArrayList<>(plain.added());
        List<Comparison.Change> changed = new ArrayList<>(plain.changed());
        for (Finding f : plain.cured()) {
            String now = f.rule() + "/" + led.name(f.subject()).orElseGet(() -> breaker(moves, f.subject()));
            Finding same = added.stream()
                    .filter(x -> x.key().equals(now) && !now.equals(f.key()))
                    .findFirst()
                    .or(() -> added.stream()
                            .filter(x -> led.isAny() && isAlike(f, x))
                            .findFirst())
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
