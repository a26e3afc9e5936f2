package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Wire;

/**
 * A wire that carries more than it may.
 *
 * @param wire the wire
 * @param amperes what it carries
 * @param limit what it may carry: the 60 °C column of table 310.16, which is also what 240.4(D) allows small wires; the local code decides
 * @param sizeKnown whether its size is recorded; where not, the limit is that of the size taken
 * @param breakers the poles that carry more than their rating and whose opening would relieve it; empty: no breaker sees it
 */
public record Overload(String wire, double amperes, double limit, boolean sizeKnown, List<String> breakers) {
    public Overload {
        breakers = List.copyOf(breakers);
    }

    /** {@return whether no breaker opens on account of it} */
    public boolean unseen() {
        return breakers.isEmpty();
    }

    /** {@return the overloaded wires, worst first} */
    public static List<Overload> in(LoadFlow flow, Solution s) {
        House house = s.circuit().house();
        List<Overload> all = new ArrayList<>();
        List<Solution> relieved = new ArrayList<>();
        List<String> over = overRated(s);
        for (String pole : over) {
            relieved.add(flow.solve(s.state().open(pole)).get());
        }
        for (Cable c : house.cables().values()) {
            for (Wire w : c.wires()) {
                double limit = Conductor.limit(w);
                int branch = Objects.requireNonNull(s.circuit().findBranch(c.name() + "." + w.name()));
                double amperes = s.amperes(branch).magnitude();
                if (!w.metal() && limit > 0 && amperes > limit) {
                    List<String> breakers = new ArrayList<>();
                    for (int i = 0; i < over.size(); i++) {
                        if (relieved.get(i).amperes(branch).magnitude() <= limit) {
                            breakers.add(over.get(i));
                        }
                    }
                    all.add(new Overload(c.name() + "." + w.name(), amperes, limit, w.size() != null, breakers));
                }
            }
        }
        all.sort((a, b) -> Double.compare(b.amperes() / b.limit(), a.amperes() / a.limit()));
        return all;
    }

    /** The poles that carry more than their rating, by gate. */
    private static List<String> overRated(Solution s) {
        List<String> over = new ArrayList<>();
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            Branch b = s.circuit().branches().get(i);
            if (Trace.isPole(b)) {
                Double rating = rating(s.circuit().house(), b);
                if (rating != null && s.amperes(i).magnitude() > rating) {
                    over.add(Objects.requireNonNull(b.gate()).thing());
                }
            }
        }
        return over.stream().distinct().toList();
    }

    /** {@return the rating of the breaker or main that a pole belongs to, in amperes; null where it is not recorded} */
    static @Nullable Double rating(House house, Branch pole) {
        String thing = Objects.requireNonNull(pole.gate()).thing();
        int dot = thing.indexOf('.');
        Panel panel = house.panels().get(thing.substring(0, dot));
        String key = thing.substring(dot + 1);
        Quantity rating = null;
        if (panel != null && key.equals("main")) {
            rating = panel.main() == null ? null : panel.main().rating();
        } else if (panel != null) {
            Breaker b = panel.breakers().get(key);
            rating = b == null ? null : b.rating();
        }
        return rating == null ? null : rating.base();
    }
}
