package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What every load point relies on: whatever thing takes something from it when it is lost. */
final class Reliance {
    private final Unknowns unknowns;
    /** By load point. */
    private final List<Relied> relies = new ArrayList<>();

    /** Of all things, where something is not known. */
    private final Map<Thing, int[]> vertices = new HashMap<>();

    /** Things come in order, so that what each load point relies on does too. */
    Reliance(Net net, Effects effects, Unknowns unknowns) {
        this.unknowns = unknowns;
        net.loadPoints.forEach(lp -> relies.add(new Relied()));
        List<Things.Lossy> things = Things.reliable(net);
        things.sort(Comparator.comparing(Things.Lossy::thing));
        boolean isAnyOpen = !unknowns.regions().isEmpty();
        for (Things.Lossy x : things) {
            if (isAnyOpen) {
                vertices.put(x.thing(), x.vertices());
            }
            Relied.On on = new Relied.On(x.thing());
            for (Effects.Effect e : effects.of(x.vertices())) {
                relies.get(e.loadPoint()).add(e, on);
            }
        }
    }

    List<ReliesOn> of(int loadPoint) {
        return unknowns.relies(loadPoint, relies.get(loadPoint).all(), vertices);
    }
}
