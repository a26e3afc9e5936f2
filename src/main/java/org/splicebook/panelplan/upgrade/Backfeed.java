package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.schedule.Frame;

/** A breaker through which solar or a battery feeds back: at the far end of the bus, and no more than the bus bears (705.12). */
final class Backfeed {
    static final String NAME = "backfeed";

    private Backfeed() {}

    static void add(Wanted wanted, List<Circuit> circuits, Notes notes) {
        Double current = wanted.backfeed();
        if (current == null) {
            return;
        }
        double sized = current * UpgradeData.number("continuous");
        Integer breaker = ServiceSize.standard(sized);
        double most = wanted.kind().rating() * UpgradeData.number("backfeed-share");
        List<String> why = new ArrayList<>();
        why.add("Main " + wanted.kind().main() + " A and 1.25 x " + Words.number(current) + " A are "
                + Words.number(wanted.kind().main() + sized) + " A; the bus of "
                + wanted.kind().rating()
                + " A bears " + Words.number(most) + " A with the two at opposite ends (705.12).");
        if (wanted.kind().main() + sized > most + 1e-6) {
            notes.separate()
                    .add("Feeding back " + Words.number(current) + " A is too much for this bus: at most "
                            + Words.number((most - wanted.kind().main()) / UpgradeData.number("continuous"))
                            + " A with this main. A smaller main, a larger bus, or a connection on the supply side.");
        }
        circuits.add(new Circuit(
                NAME,
                List.of(),
                List.of(new Circuit.Pole("", 0, List.of(), 0), new Circuit.Pole("", 0, List.of(), 0)),
                breaker == null ? null : Double.valueOf(breaker),
                Set.of(),
                List.of(),
                "Second source: solar or battery feeds back here",
                true,
                why));
    }

    /** The lowest places for two poles, the main being at the top. */
    static Set<Integer> farEnd(Frame frame) {
        Set<Integer> tops = new TreeSet<>();
        for (int s = Math.max(1, frame.spaces() - 3); s <= frame.spaces() - 2; s++) {
            tops.add(s);
        }
        return tops;
    }
}
