package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Which breakers and mains the hot terminals of every load point pass, and whether always: read off the kept dominators of hots, flooded
 * where a bus may go too, or where several poles go at once on tangled ways.
 */
final class Overcurrent {
    private static final Ints NONE = new Ints(1);

    private final Reach reach;
    private final Map<Integer, Map<Thing, Sureness>> byLoadPoint = new HashMap<>();

    /**
     * @param things mains and breakers, with their poles
     */
    Overcurrent(Reach reach, AfterLoss afterLoss, List<Things.Lossy> things) {
        this.reach = reach;
        List<Ints> behind = behind(things);
        for (int i = 0; i < things.size(); i++) {
            Things.Lossy x = things.get(i);
            if (afterLoss.isFlooded(x.vertices())) {
                flooded(x, afterLoss);
                continue;
            }
            for (int lp : behind.get(i).distinct()) {
                List<Part> parts = reach.partsOfLoadPoint.get(lp);
                put(lp, x.thing(), Effects.always(parts, left(parts, x.vertices())));
            }
        }
    }

    private void flooded(Things.Lossy x, AfterLoss afterLoss) {
        @Nullable After[][] after = afterLoss.left(x.vertices(), afterLoss.live(x.vertices()));
        for (int lp = 0; lp < after.length; lp++) {
            List<Part> parts = reach.partsOfLoadPoint.get(lp);
            if (after[lp] != null && Effects.isAnyHotFewer(parts, after[lp])) {
                put(lp, x.thing(), Effects.always(parts, after[lp]));
            }
        }
    }

    /** By thing, the load points one of whose hots passes one of its poles. */
    private List<Ints> behind(List<Things.Lossy> things) {
        List<Ints> behind = new ArrayList<>(things.size());
        List<Ints> at = new ArrayList<>();
        int[] index = new int[reach.net.size];
        for (int i = 0; i < things.size(); i++) {
            behind.add(new Ints());
            for (int v : things.get(i).vertices()) {
                if (index[v] == 0) {
                    at.add(new Ints(1));
                    index[v] = at.size();
                }
                at.get(index[v] - 1).add(i);
            }
        }
        for (List<Part> parts : reach.partsOfLoadPoint) {
            for (Part p : parts) {
                Behind.lines(p, p.hotBy, (lp, line) -> {
                    // Behind a pole there is but its bus, so it stands last in a line.
                    int last = index[line[line.length - 1]];
                    Ints on = last == 0 ? NONE : at.get(last - 1);
                    for (int k = 0; k < on.size(); k++) {
                        // Told load point by load point.
                        Ints its = behind.get(on.get(k));
                        if (its.size() == 0 || its.get(its.size() - 1) != lp) {
                            its.add(lp);
                        }
                    }
                });
            }
        }
        return behind;
    }

    private static long[][] left(List<Part> parts, int[] gone) {
        long[][] left = new long[parts.size()][];
        for (Part p : parts) {
            left[p.index] = After.without(p.hot, p.hotBy, gone);
        }
        return left;
    }

    private void put(int loadPoint, Thing thing, boolean always) {
        byLoadPoint.computeIfAbsent(loadPoint, k -> new TreeMap<>()).put(thing, always ? Sureness.MUST : Sureness.MAY);
    }

    Map<Thing, Sureness> of(int loadPoint) {
        return byLoadPoint.getOrDefault(loadPoint, Map.of());
    }
}
