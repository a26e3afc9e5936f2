package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Which load is across which branch in one case. */
final class Loads {
    /** One load that is on. */
    record On(int branch, double nominalVolts, Load load) {}

    private Loads() {}

    /** {@return the loads that are on} */
    static List<On> in(Circuit circuit, LoadCase state) {
        List<On> on = new ArrayList<>();
        for (LoadPoint p : circuit.loadPoints()) {
            for (int i = 0; i < p.pairs().size(); i++) {
                LoadPoint.Pair pair = p.pairs().get(i);
                Load load = load(circuit, state, p, pair, i == 0);
                if (load.isOn()) {
                    on.add(new On(pair.branch(), pair.volts(), load));
                }
            }
        }
        return on;
    }

    private static Load load(Circuit circuit, LoadCase state, LoadPoint p, LoadPoint.Pair pair, boolean first) {
        Load said = state.loads().get(circuit.branches().get(pair.branch()).name());
        if (said == null && first) {
            said = state.loads().get(p.name());
        }
        if (said == null) {
            said = wider(state, p, pair, first);
        }
        return said == null ? usual(state.base(), p, pair, first) : said;
    }

    /** What is said of the whole device or the whole room; loads that are switched on go across the first pair. */
    private static @Nullable Load wider(LoadCase state, LoadPoint p, LoadPoint.Pair pair, boolean first) {
        Load said = state.loads().get(p.device());
        if (said == null && p.place() != null) {
            said = state.loads().get(p.place());
        }
        return said == null || first || !said.isOn() ? said : pair.typical();
    }

    private static Load usual(LoadCase.Base base, LoadPoint p, LoadPoint.Pair pair, boolean first) {
        return switch (base) {
            case NOTHING_ON -> Load.OFF;
            case TYPICAL -> pair.typical();
            case ALL_ON ->
                pair.typical().isOn() || !p.receptacle() || !first || pair.volts() > 200
                        ? pair.typical()
                        : Load.watts(Tables.number("plugged-in", "watts"));
            case HEATERS -> isHeater(p) ? pair.typical() : Load.OFF;
        };
    }

    private static boolean isHeater(LoadPoint p) {
        List<String> heaters = Tables.list("heaters");
        return heaters.contains(p.kind()) || (p.load() != null && heaters.contains(p.load()));
    }
}
