package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;

/**
 * What one connection turns into heat.
 *
 * @param arm the connection: {@code bench:K1.white}
 * @param amperes what it carries
 * @param ohms its resistance
 * @param watts what it gives off
 */
public record Heat(String arm, double amperes, double ohms, double watts) {
    /** {@return the connections that give off at least so many watts, hottest first} */
    public static List<Heat> in(Solution s, double atLeastWatts) {
        List<Heat> all = new ArrayList<>();
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            Branch b = s.circuit().branches().get(i);
            if (b.kind() == Branch.Kind.ARM && s.isClosed(i) && s.watts(i) >= atLeastWatts) {
                double amperes = s.amperes(i).magnitude();
                all.add(new Heat(b.name(), amperes, s.impedance(i).orElseThrow().re(), s.watts(i)));
            }
        }
        all.sort((a, b) -> Double.compare(b.watts(), a.watts()));
        return all;
    }
}
