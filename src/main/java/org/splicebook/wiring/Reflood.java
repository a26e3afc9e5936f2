package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Floods regions again after a loss, for what several losses at once, or one in the trunk, leave. */
final class Reflood {
    private final Reach reach;
    private final Net net;
    private final int[] marked;
    private final int[] queue;
    private int stamp;

    Reflood(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.marked = new int[net.size];
        this.queue = new int[net.size];
    }

    /** {@return whether a root of the region is fed now and was not, or the reverse} */
    boolean differs(Regions.Region r, List<BitSet> live) {
        return differs(r.hotRoots, live) || differs(r.neutralRoots, live) || differs(r.groundRoots, live);
    }

    private boolean differs(int[] roots, List<BitSet> live) {
        for (int v : roots) {
            for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                int u = net.adjacent[i];
                if (net.cut[u]) {
                    for (int t = 0; t < live.size(); t++) {
                        if (live.get(t).get(u) != reach.trunk.live.get(t).get(u)) {
                            return true;
                        }
                    }
                }
            }
        }
        return false;
    }

    /**
     * Floods a region again, once for all parts that the same levers matter to.
     *
     * @param changed whether the region itself lost a vertex
     * @param which the parts to look at
     */
    void region(
            Regions.Region r,
            List<BitSet> live,
            boolean changed,
            java.util.function.Predicate<Part> which,
            @Nullable After[][] after) {
        List<List<Part>> bySet = new ArrayList<>();
        for (Part p : reach.partsOfRegion.get(r.index)) {
            if (!which.test(p)) {
                continue;
            }
            int n = p.cases();
            put(reach, after, p, new After(new long[n], new long[n], new long[n], new long[n]));
            if (changed) {
                group(bySet, p).add(p);
            } else {
                readOff(p, live, of(after, p));
            }
        }
        for (int t = 0; t < reach.trunk.positions && !bySet.isEmpty(); t++) {
            reach.state.set(reach.trunk.levers, t);
            BitSet now = live.get(t);
            int[] hot = fed(r, r.hotRoots, now, Net.Kind.BUS);
            int[] neutral = fed(r, r.neutralRoots, now, Net.Kind.NEUTRAL_BAR);
            int[] ground = fed(r, r.groundRoots, now, Net.Kind.GROUND_BAR);
            for (List<Part> parts : bySet) {
                Part first = parts.get(0);
                for (int k = 0; k < first.positions; k++) {
                    reach.state.set(first.levers, k);
                    int c = t * first.positions + k;
                    mark(hot);
                    for (Part p : parts) {
                        of(after, p).hot()[c] = mask(p);
                    }
                    mark(neutral);
                    for (Part p : parts) {
                        of(after, p).neutral()[c] = mask(p);
                    }
                    mark(ground);
                    for (Part p : parts) {
                        of(after, p).overGround()[c] = mask(p);
                        of(after, p).grounded()[c] = p.ground >= 0 && marked[p.ground] == stamp ? 1 : 0;
                    }
                }
                reach.state.join(first.levers);
            }
        }
        reach.state.join(reach.trunk.levers);
    }

    /**
     * What a part of a region that lost none of its own vertices still reaches: the same wires lead to the same roots, so a terminal keeps
     * what one of its kept roots is still fed with. A loss feeds no root that was not fed before.
     */
    private void readOff(Part p, List<BitSet> live, After after) {
        Regions.Region r = p.region;
        for (int t = 0; t < reach.trunk.positions; t++) {
            reach.state.set(reach.trunk.levers, t);
            BitSet now = live.get(t);
            int[] hot = fed(r, r.hotRoots, now, Net.Kind.BUS);
            int[] neutral = fed(r, r.neutralRoots, now, Net.Kind.NEUTRAL_BAR);
            int[] ground = fed(r, r.groundRoots, now, Net.Kind.GROUND_BAR);
            for (int c = t * p.positions; c < (t + 1) * p.positions; c++) {
                after.hot()[c] = still(p.hot[c], p.hotRoots[c], hot);
                after.neutral()[c] = still(p.neutral[c], p.neutralRoots[c], neutral);
                after.overGround()[c] = still(p.overGround[c], p.overGroundRoots[c], ground);
                after.grounded()[c] = still(p.grounded[c], p.groundRoots[c], ground);
            }
        }
        reach.state.join(reach.trunk.levers);
    }

    private static long still(long before, int[][] roots, int[] fed) {
        long left = before;
        for (int i = 0; left >>> i != 0; i++) {
            if ((left >>> i & 1) != 0 && !meet(roots[i], fed)) {
                left &= ~(1L << i);
            }
        }
        return left;
    }

    private static boolean meet(int[] some, int[] others) {
        if (some == others) {
            return some.length > 0;
        }
        for (int a : some) {
            for (int b : others) {
                if (a == b) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Parts that were surveyed together share the list of their levers. */
    private static List<Part> group(List<List<Part>> groups, Part p) {
        for (List<Part> g : groups) {
            if (g.get(0).levers == p.levers) {
                return g;
            }
        }
        List<Part> one = new ArrayList<>();
        groups.add(one);
        return one;
    }

    private int[] fed(Regions.Region r, int[] roots, BitSet live, Net.Kind kind) {
        return reach.trunk.fedRoots(r, roots, live, reach.state, kind);
    }

    static void put(Reach reach, @Nullable After[][] after, Part p, After left) {
        After[] parts = after[p.loadPoint];
        if (parts == null) {
            parts = new After[reach.partsOfLoadPoint.get(p.loadPoint).size()];
            after[p.loadPoint] = parts;
        }
        parts[p.index] = left;
    }

    private static After of(@Nullable After[][] after, Part p) {
        return java.util.Objects.requireNonNull(after[p.loadPoint])[p.index];
    }

    private long mask(Part p) {
        long m = 0;
        for (int i = 0; i < p.terminals.length; i++) {
            if (marked[p.terminals[i]] == stamp) {
                m |= 1L << i;
            }
        }
        return m;
    }

    /** Marks what these roots reach now. */
    private void mark(int[] roots) {
        stamp++;
        int n = 0;
        for (int v : roots) {
            if (marked[v] != stamp && reach.state.conducts(v)) {
                marked[v] = stamp;
                queue[n++] = v;
            }
        }
        for (int i = 0; i < n; i++) {
            for (int k = net.start[queue[i]]; k < net.start[queue[i] + 1]; k++) {
                int u = net.adjacent[k];
                if (!net.cut[u] && marked[u] != stamp && reach.state.conducts(u)) {
                    marked[u] = stamp;
                    queue[n++] = u;
                }
            }
        }
    }
}
