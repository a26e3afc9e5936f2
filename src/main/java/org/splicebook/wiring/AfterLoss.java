package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * What load points still reach when vertices are gone whose loss cannot be read off the kept dominators: several in one region where ways
 * are tangled, or one that may take a bus or bar along.
 */
final class AfterLoss {
    private static final int[] NOTHING = {};

    private final Reach reach;
    private final Net net;
    private final Reflood reflood;
    private final Map<Integer, List<BitSet>> liveByRow = new HashMap<>();

    AfterLoss(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.reflood = new Reflood(reach);
    }

    /** {@return whether what goes with these cannot be read off the dominators} */
    boolean isFlooded(int[] vertices) {
        if (isTrunk(vertices)) {
            return true;
        }
        for (int r : vertices.length > 1 ? regionsOf(vertices) : NOTHING) {
            if (isTangled(r) && countIn(vertices, r) > 1) {
                return true;
            }
        }
        return false;
    }

    /** {@return whether a bus or bar may be lost with these} */
    boolean isTrunk(int[] vertices) {
        for (int v : vertices) {
            if (!reach.trunk.isDeadEnd(v)) {
                return true;
            }
        }
        return false;
    }

    /** {@return the regions these are in, in order} */
    int[] regionsOf(int[] vertices) {
        if (vertices.length == 1) {
            return net.cut[vertices[0]] ? NOTHING : new int[] {reach.regions.of[vertices[0]]};
        }
        Ints found = new Ints(vertices.length);
        for (int v : vertices) {
            if (!net.cut[v]) {
                found.add(reach.regions.of[v]);
            }
        }
        return found.distinct();
    }

    private int countIn(int[] vertices, int region) {
        int n = 0;
        for (int v : vertices) {
            n += !net.cut[v] && reach.regions.of[v] == region ? 1 : 0;
        }
        return n;
    }

    /** Where only one way leads to each terminal, several losses are the union of single ones. */
    private boolean isTangled(int region) {
        for (Part p : reach.partsOfRegion.get(region)) {
            if (p.tangled) {
                return true;
            }
        }
        return false;
    }

    /** {@return whether a load point has a terminal in one of the regions that these are in} */
    boolean isLoaded(int[] vertices) {
        for (int r : regionsOf(vertices)) {
            if (!reach.partsOfRegion.get(r).isEmpty()) {
                return true;
            }
        }
        return false;
    }

    /** {@return the buses and bars still live in each position of the trunk; the same for all vertices in one row} */
    List<BitSet> live(int[] vertices) {
        if (!isTrunk(vertices)) {
            return reach.trunk.live;
        }
        int row = vertices.length == 1 ? reach.trunk.row(vertices[0]) : -1;
        List<BitSet> known = row < 0 ? null : liveByRow.get(row);
        if (known != null) {
            return known;
        }
        List<BitSet> live = new ArrayList<>();
        reach.state.remove(vertices);
        for (int t = 0; t < reach.trunk.positions; t++) {
            reach.state.set(reach.trunk.levers, t);
            live.add(reach.trunk.live(reach.state));
        }
        reach.state.join(reach.trunk.levers);
        reach.state.restore(vertices);
        if (row >= 0) {
            liveByRow.put(row, live);
        }
        return live;
    }

    /**
     * {@return what is left of the parts of each load point; null for a load point that loses nothing, and for a part that does not}
     *
     * @param live the buses and bars still live without these vertices
     */
    @Nullable
    After[][] left(int[] vertices, List<BitSet> live) {
        boolean trunk = isTrunk(vertices);
        boolean changed = trunk && !live.equals(reach.trunk.live);
        int[] regions = regionsOf(vertices);
        @Nullable After[][] after = new After[net.loadPoints.size()][];
        reach.state.remove(vertices);
        for (int r : regions) {
            boolean all = trunk || countIn(vertices, r) > 1;
            reflood.region(reach.regions.all.get(r), live, true, p -> trunk || (all && p.tangled), after);
            if (!trunk) {
                readOff(r, vertices, p -> !(all && p.tangled), after);
            }
        }
        for (Regions.Region r : changed ? reach.regions.all : List.<Regions.Region>of()) {
            if (!reach.partsOfRegion.get(r.index).isEmpty()
                    && java.util.Arrays.binarySearch(regions, r.index) < 0
                    && reflood.differs(r, live)) {
                reflood.region(r, live, false, p -> true, after);
            }
        }
        reach.state.restore(vertices);
        return after;
    }

    /** What is left of parts to each of whose terminals one way leads, or of which one vertex goes. */
    private void readOff(int region, int[] vertices, Predicate<Part> which, @Nullable After[][] after) {
        for (Part p : reach.partsOfRegion.get(region)) {
            if (which.test(p)) {
                After left = After.without(p, vertices);
                if (!left.isAllOf(p)) {
                    Reflood.put(reach, after, p, left);
                }
            }
        }
    }
}
