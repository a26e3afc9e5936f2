package org.splicebook.wiring;

import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;

/** Which breakers and mains the hot terminals of every load point pass, and whether always. */
final class Overcurrent {
    private final Map<Integer, Map<Thing, Sureness>> byLoadPoint = new HashMap<>();

    Overcurrent(Net net, Effects effects) {
        for (Things.Lossy x : Things.overcurrent(net)) {
            for (Effects.Effect e : effects.of(x.vertices())) {
                if (e.terminalFewer()) {
                    byLoadPoint
                            .computeIfAbsent(e.loadPoint(), k -> new TreeMap<>())
                            .put(x.thing(), e.always() ? Sureness.MUST : Sureness.MAY);
                }
            }
        }
    }

    Map<Thing, Sureness> of(int loadPoint) {
        return byLoadPoint.getOrDefault(loadPoint, Map.of());
    }
}
