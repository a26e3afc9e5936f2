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

    private final Reach reach;
    private final Net net;
    private final ThroughLoads throughLoads;
    /** Effects of losses in the trunk where no load hangs: they differ only by what is still live. */
    private final Map<List<BitSet>, List<Effect>> byLive = new HashMap<>();

    /** Effects of single losses, which reliance and losses both ask for. */
    private final @Nullable List<Effect>[] ofOne;

    /** Effects of single losses by signature, of which what is live through loads has no part. */
    private final Map<Long, List<Effect>> bySignature = new HashMap<>();

    private final Behind behind;
    private final AfterLoss afterLoss;

    @SuppressWarnings({"unchecked", "rawtypes"}) // an array of lists
    Effects(Reach reach, AfterLoss afterLoss) {
        this.reach = reach;
        this.net = reach.net;
        this.throughLoads = new ThroughLoads(reach);
        this.behind = new Behind(reach);
        this.afterLoss = afterLoss;
        this.ofOne = new List[net.size];
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
        if (net.cut[v] || behind.isNone(v) || afterLoss.isTrunk(vertices)) {
            return compute(vertices);
        }
        List<Effect> known = bySignature.get(behind.signature(v));
        if (known == null) {
            throughLoads.forgetLooks();
            known = compute(vertices);
            if (!throughLoads.looked()) {
                bySignature.put(behind.signature(v), known);
            }
        }
        return known;
    }

    private List<Effect> compute(int[] vertices) {
        if (afterLoss.isFlooded(vertices)) {
            return flooded(vertices);
        }
        int[] regions = afterLoss.regionsOf(vertices);
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

    /** The load points one of whose ways must pass one of these, in order. */
    private int[] touchedBy(int[] vertices) {
        if (vertices.length == 1) {
            return behind.of(vertices[0]);
        }
        Ints touched = new Ints();
        for (int v : vertices) {
            for (int lp : behind.of(v)) {
                touched.add(lp);
            }
        }
        return touched.distinct();
    }

    private List<Effect> flooded(int[] vertices) {
        boolean trunk = afterLoss.isTrunk(vertices);
        List<BitSet> live = afterLoss.live(vertices);
        boolean changed = trunk && !live.equals(reach.trunk.live);
        boolean loaded = afterLoss.isLoaded(vertices);
        boolean shared = changed && !loaded;
        List<Effect> known = trunk && !changed && !loaded ? List.of() : shared ? byLive.get(live) : null;
        if (known != null) {
            return known;
        }
        @Nullable After[][] after = afterLoss.left(vertices, live);
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

    private void add(List<Effect> effects, int lp, After[] after, int[] vertices) {
        List<Part> parts = reach.partsOfLoadPoint.get(lp);
        boolean terminalLost = false;
        boolean terminalFewer = isAnyHotFewer(parts, after);
        boolean overGround = false;
        for (Part p : parts) {
            After a = after[p.index];
            if (a != null && a.hot() != p.hot) {
                terminalLost |= (or(p.hot) & ~or(a.hot())) != 0;
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

    /** {@return whether a hot terminal of a load point is hot in fewer cases than before} */
    static boolean isAnyHotFewer(List<Part> parts, After[] after) {
        for (Part p : parts) {
            After a = after[p.index];
            if (a != null && !java.util.Arrays.equals(p.hot, a.hot())) {
                return true;
            }
        }
        return false;
    }

    /** {@return whether in every case in which a load point is live one of its hot terminals is lost} */
    static boolean always(List<Part> parts, After[] after) {
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
