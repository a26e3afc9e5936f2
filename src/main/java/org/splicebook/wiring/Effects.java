package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What load points lose when vertices are taken away: read off the kept dominators where one vertex of a region goes, flooded again
 * where several go or the trunk is touched.
 */
final class Effects {
    /**
     * What a load point lost.
     *
     * @param fewer whether it is live in fewer cases
     * @param terminalLost whether one of its hot terminals is hot in no case any more
     * @param terminalFewer whether one of its hot terminals is hot in fewer cases
     * @param always whether in every case in which it is live one of its hot terminals is lost, and there is one
     */
    record Effect(
            int loadPoint,
            LossRow.Hot hot,
            LossRow.Neutral neutral,
            LossRow.Ground ground,
            boolean fewer,
            boolean terminalLost,
            boolean terminalFewer,
            boolean always) {
        boolean changes() {
            return hot != LossRow.Hot.KEPT || neutral != LossRow.Neutral.KEPT || ground != LossRow.Ground.KEPT;
        }
    }

    private static final int[] NOTHING = {};

    private final Reach reach;
    private final Net net;
    private final ThroughLoads throughLoads;
    /** Effects of losses in the trunk where no load hangs: they differ only by what is still live. */
    private final Map<List<BitSet>, List<Effect>> byLive = new HashMap<>();

    private final Map<Integer, List<BitSet>> liveByRow = new HashMap<>();

    /** Effects of single losses, which reliance and losses both ask for. */
    private final @Nullable List<Effect>[] ofOne;

    /** Effects of single losses by signature, of which what is live through loads has no part. */
    private final Map<Long, List<Effect>> bySignature = new HashMap<>();

    private @Nullable Behind behind;

    private final Reflood reflood;

    @SuppressWarnings({"unchecked", "rawtypes"}) // an array of lists
    Effects(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.throughLoads = new ThroughLoads(reach);
        this.reflood = new Reflood(reach);
        this.ofOne = new List[net.size];
    }

    private Behind behind() {
        Behind known = behind;
        if (known == null) {
            known = new Behind(reach);
            behind = known;
        }
        return known;
    }

    /** {@return what changes, load point by load point, when these vertices are taken away} */
    List<Effect> of(int[] vertices) {
        if (vertices.length != 1) {
            return compute(vertices);
        }
        int v = vertices[0];
        List<Effect> known = ofOne[v];
        if (known == null) {
            known = one(vertices);
            ofOne[v] = known;
        }
        return known;
    }

    private List<Effect> one(int[] vertices) {
        int v = vertices[0];
        if (net.cut[v] || behind().isNone(v) || isTrunk(vertices)) {
            return compute(vertices);
        }
        List<Effect> known = bySignature.get(behind().signature(v));
        if (known == null) {
            throughLoads.forgetLooks();
            known = compute(vertices);
            if (!throughLoads.looked()) {
                bySignature.put(behind().signature(v), known);
            }
        }
        return known;
    }

    /** Whether a bus or bar may be lost with these. */
    private boolean isTrunk(int[] vertices) {
        for (int v : vertices) {
            if (reach.trunk.concerns(v)) {
                return vertices.length > 1 || !reach.trunk.isDeadEnd(v);
            }
        }
        return false;
    }

    private List<Effect> compute(int[] vertices) {
        int[] regions = regionsOf(vertices);
        if (isFlooded(vertices)) {
            return flooded(vertices, regions, isTrunk(vertices));
        }
        int[] touched = touchedBy(vertices);
        List<Effect> effects = new ArrayList<>(touched.length);
        for (int lp : touched) {
            List<Part> parts = reach.partsOfLoadPoint.get(lp);
            After[] after = new After[parts.size()];
            for (int i = 0; i < after.length; i++) {
                if (java.util.Arrays.binarySearch(regions, parts.get(i).region.index) >= 0) {
                    after[i] = After.without(parts.get(i), vertices);
                }
            }
            add(effects, lp, after, vertices);
        }
        return effects;
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

    /** The load points one of whose ways must pass one of these, in order. */
    private int[] touchedBy(int[] vertices) {
        if (vertices.length == 1) {
            return behind().of(vertices[0]);
        }
        Ints touched = new Ints();
        for (int v : vertices) {
            for (int lp : behind().of(v)) {
                touched.add(lp);
            }
        }
        return touched.distinct();
    }

    /** The regions these are in, in order. */
    private int[] regionsOf(int[] vertices) {
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

    /** The buses and bars still live in each position of the trunk; the same for all vertices in one row. */
    private List<BitSet> liveAfter(int[] vertices) {
        int row = vertices.length == 1 ? reach.trunk.row(vertices[0]) : -1;
        List<BitSet> known = row < 0 ? null : liveByRow.get(row);
        if (known != null) {
            return known;
        }
        List<BitSet> live = new ArrayList<>();
        for (int t = 0; t < reach.trunk.positions; t++) {
            reach.state.set(reach.trunk.levers, t);
            live.add(reach.trunk.live(reach.state));
        }
        reach.state.join(reach.trunk.levers);
        if (row >= 0) {
            liveByRow.put(row, live);
        }
        return live;
    }

    private List<Effect> flooded(int[] vertices, int[] regions, boolean trunk) {
        reach.state.remove(vertices);
        List<BitSet> live = trunk ? liveAfter(vertices) : reach.trunk.live;
        boolean changed = trunk && !live.equals(reach.trunk.live);
        boolean loaded = false;
        for (int r : regions) {
            loaded |= !reach.partsOfRegion.get(r).isEmpty();
        }
        boolean shared = changed && !loaded;
        List<Effect> known = trunk && !changed && !loaded ? List.of() : shared ? byLive.get(live) : null;
        if (known != null) {
            reach.state.restore(vertices);
            return known;
        }
        @Nullable After[][] after = new After[net.loadPoints.size()][];
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
        if (trunk && reach.trunk.levers.length == 0) {
            throughLoads.lose(vertices, live.get(0));
        }
        List<Effect> effects = new ArrayList<>();
        for (int lp = 0; lp < after.length; lp++) {
            if (after[lp] != null) {
                add(effects, lp, after[lp], vertices);
            }
        }
        if (shared) {
            byLive.put(live, effects);
        }
        return effects;
    }

    /** What is left of parts to each of whose terminals one way leads, or of which one vertex goes. */
    private void readOff(
            int region, int[] vertices, java.util.function.Predicate<Part> which, @Nullable After[][] after) {
        for (Part p : reach.partsOfRegion.get(region)) {
            if (which.test(p)) {
                After left = After.without(p, vertices);
                if (!left.isAllOf(p)) {
                    Reflood.put(reach, after, p, left);
                }
            }
        }
    }

    private void add(List<Effect> effects, int lp, After[] after, int[] vertices) {
        List<Part> parts = reach.partsOfLoadPoint.get(lp);
        boolean terminalLost = false;
        boolean terminalFewer = false;
        boolean overGround = false;
        for (Part p : parts) {
            After a = after[p.index];
            if (a != null && a.hot() != p.hot) {
                terminalLost |= (or(p.hot) & ~or(a.hot())) != 0;
                terminalFewer |= !java.util.Arrays.equals(p.hot, a.hot());
            }
            overGround |= (or(p.neutral) & or(a == null ? p.overGround : a.overGround())) != 0;
        }
        Outcome hot = Outcome.of(parts, after, Conductor.HOT);
        Outcome neutral = Outcome.of(parts, after, Conductor.NEUTRAL);
        Outcome ground = Outcome.of(parts, after, Conductor.GROUND);
        LossRow.Hot h = LossRow.Hot.KEPT;
        if (hot == Outcome.LOST) {
            h = throughLoads.reaches(lp, vertices) ? LossRow.Hot.LOST_LIVE_THROUGH_LOAD : LossRow.Hot.LOST;
        } else if (terminalLost) {
            h = LossRow.Hot.ONE_OF_TWO;
        } else if (hot == Outcome.FEWER) {
            h = LossRow.Hot.IMPAIRED;
        }
        LossRow.Neutral n = LossRow.Neutral.KEPT;
        if (neutral == Outcome.LOST) {
            n = overGround ? LossRow.Neutral.OVER_GROUND : LossRow.Neutral.LOST;
        } else if (neutral == Outcome.FEWER) {
            n = LossRow.Neutral.IMPAIRED;
        }
        LossRow.Ground g = LossRow.Ground.KEPT;
        if (ground == Outcome.LOST) {
            g = LossRow.Ground.LOST;
        } else if (ground == Outcome.FEWER) {
            g = LossRow.Ground.IMPAIRED;
        }
        Effect e = new Effect(
                lp, h, n, g, hot != Outcome.KEPT, terminalLost, terminalFewer, terminalFewer && always(parts, after));
        if (e.changes() || e.terminalFewer()) {
            effects.add(e);
        }
    }

    private static boolean always(List<Part> parts, After[] after) {
        long[][] left = new long[after.length][];
        for (int i = 0; i < after.length; i++) {
            left[i] = after[i] == null ? parts.get(i).hot : after[i].hot();
        }
        return always(parts, left);
    }

    /**
     * {@return whether in every case in which a load point is live one of its hot terminals is lost}
     *
     * @param left the masks of terminals that are still hot, by part and case
     */
    static boolean always(List<Part> parts, long[][] left) {
        for (int t = 0; t < parts.get(0).trunkPositions; t++) {
            boolean nothingLost = true;
            boolean liveAndNothingLost = false;
            for (Part p : parts) {
                boolean some = false;
                for (int c = t * p.positions; c < (t + 1) * p.positions; c++) {
                    boolean loses = (p.hot[c] & ~left[p.index][c]) != 0;
                    some |= !loses;
                    liveAndNothingLost |= !loses && p.hot[c] != 0;
                }
                nothingLost &= some;
            }
            if (nothingLost && liveAndNothingLost) {
                return false;
            }
        }
        return true;
    }

    private static long or(long[] masks) {
        long all = 0;
        for (long m : masks) {
            all |= m;
        }
        return all;
    }
}
