package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Whether the neutrals of poles are their own: only then can a breaker watch hot and neutral together. */
final class Neutrals {
    private static final Set<CrossingKind> IN_ORDER = Set.of(
            CrossingKind.MULTIWIRE, CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT, CrossingKind.SHARED_ON_ONE_LEG);

    private Neutrals() {}

    /**
     * {@return why the neutrals are not these poles' own; empty where the record shows that they are}
     *
     * @param poles with their panel: {@code main.9}
     * @param breakers with their panel
     */
    static String whyNot(Wiring wiring, Set<String> poles, Set<String> breakers) {
        for (Crossing c : wiring.crossings()) {
            boolean concerns = c.poles().stream().anyMatch(poles::contains)
                    || (c.device() != null && breakers.contains(c.device()));
            if (concerns && !IN_ORDER.contains(c.kind())) {
                return c.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
                        + (c.sureness() == Sureness.MAY ? " (possible)" : "")
                        + (c.loadPoints().isEmpty() ? "" : " at " + String.join(", ", c.loadPoints()));
            }
        }
        for (NeutralIsland i : wiring.islands()) {
            if (i.poles().stream().anyMatch(poles::contains) && !poles.containsAll(i.poles())) {
                List<String> others = new ArrayList<>(i.poles());
                others.removeAll(poles);
                return "its neutral is shared with " + String.join(", ", others);
            }
        }
        boolean isOpen = wiring.openRegions().stream()
                .anyMatch(o -> o.breakers().stream().anyMatch(breakers::contains));
        return isOpen ? "where its wires go is not wholly known" : "";
    }

    /** {@return the wires by which the neutrals of these poles land in a panel, in order} */
    static Set<String> landings(Wiring wiring, String panel, Set<String> poles) {
        Set<String> all = new LinkedHashSet<>();
        for (NeutralIsland i : wiring.islands()) {
            if (i.poles().stream().anyMatch(poles::contains)) {
                i.landings().stream()
                        .filter(l -> l.startsWith(panel + ":"))
                        .forEach(l -> all.add(l.substring(panel.length() + 1)));
            }
        }
        return all;
    }
}
