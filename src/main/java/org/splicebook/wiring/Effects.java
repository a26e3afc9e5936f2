package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

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
     * @param always whether in every case in which it is live one of its hot terminals is lost
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
    private final Map<Integer, List<Effect>> ofOne = new HashMap<>();

    /** By vertex: the load points one of whose ways must pass it. */
    private final int[][] loadPointsBehind;

    private final int[] marked;
    private final int[] queue;
    private int stamp;

    Effects(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.throughLoads = new ThroughLoads(reach);
        this.marked = new int[net.size];
        this.queue = new int[net.size];
        this.loadPointsBehind = new int[net.size][];
        for (List<Part> parts : reach.partsOfLoadPoint) {
            for (Part p : parts) {
                index(p, p.hotBy);
                index(p, p.neutralBy);
                index(p, p.groundBy);
            }
        }
    }

    /** Load points come in order, so the last one tells whether one is already listed. */
    private void index(Part p, int[][][] by) {
        for (int[][] terminals : by) {
            for (int[] chain : terminals == null ? new int[0][] : terminals) {
                for (int v : chain == null ? new int[0] : chain) {
                    int[] known = loadPointsBehind[v];
                    if (known == null) {
                        loadPointsBehind[v] = new int[] {p.loadPoint};
                    } else if (known[known.length - 1] != p.loadPoint) {
                        loadPointsBehind[v] = java.util.Arrays.copyOf(known, known.length + 1);
                        loadPointsBehind[v][known.length] = p.loadPoint;
                    }
                }
            }
        }
    }

    /** {@return what changes, load point by load point, when these vertices are taken away} */
    List<Effect> of(int[] vertices) {
        if (vertices.length != 1) {
            return compute(vertices);
        }
        List<Effect> known = ofOne.get(vertices[0]);
        if (known == null) {
            known = compute(vertices);
            ofOne.put(vertices[0], known);
        }
        return known;
    }

    private List<Effect> compute(int[] vertices) {
        boolean trunk = false;
        Map<Integer, List<Integer>> byRegion = new TreeMap<>();
        for (int v : vertices) {
            if (net.cut[v]) {
                continue;
            }
            trunk |= reach.trunk.concerns(v);
            byRegion.computeIfAbsent(reach.regions.of[v], k -> new ArrayList<>())
                    .add(v);
        }
        if (trunk && (vertices.length > 1 || !reach.trunk.isDeadEnd(vertices[0]))) {
            return flooded(vertices, byRegion, true);
        }
        for (Map.Entry<Integer, List<Integer>> e : byRegion.entrySet()) {
            if (e.getValue().size() > 1 && isTangled(e.getKey())) {
                return flooded(vertices, byRegion, false);
            }
        }
        TreeSet<Integer> touched = new TreeSet<>();
        for (int v : vertices) {
            for (int lp : loadPointsBehind[v] == null ? new int[0] : loadPointsBehind[v]) {
                touched.add(lp);
            }
        }
        List<Effect> effects = new ArrayList<>();
        for (int lp : touched) {
            Map<Part, After> after = new HashMap<>();
            for (Part p : reach.partsOfLoadPoint.get(lp)) {
                List<Integer> gone = byRegion.get(p.region.index);
                if (gone != null) {
                    after.put(p, After.without(p, gone));
                }
            }
            add(effects, lp, after, vertices);
        }
        return effects;
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

    private List<Effect> flooded(int[] vertices, Map<Integer, List<Integer>> byRegion, boolean trunk) {
        reach.state.remove(vertices);
        List<BitSet> live = reach.trunk.live;
        if (trunk) {
            live = new ArrayList<>();
            for (int t = 0; t < reach.trunk.positions; t++) {
                reach.state.set(reach.trunk.levers, t);
                live.add(reach.trunk.live(reach.state));
            }
            reach.state.join(reach.trunk.levers);
        }
        boolean changed = trunk && !live.equals(reach.trunk.live);
        boolean shared = changed
                && byRegion.keySet().stream()
                        .allMatch(r -> reach.partsOfRegion.get(r).isEmpty());
        if (trunk
                && !changed
                && byRegion.keySet().stream()
                        .allMatch(r -> reach.partsOfRegion.get(r).isEmpty())) {
            reach.state.restore(vertices);
            return List.of();
        }
        List<Effect> known = shared ? byLive.get(live) : null;
        if (known != null) {
            reach.state.restore(vertices);
            return known;
        }
        Map<Integer, Map<Part, After>> after = new TreeMap<>();
        for (int r : byRegion.keySet()) {
            reflood(reach.regions.all.get(r), live, after);
        }
        for (Regions.Region r : changed ? reach.regions.all : List.<Regions.Region>of()) {
            if (!byRegion.containsKey(r.index)
                    && !reach.partsOfRegion.get(r.index).isEmpty()
                    && differs(r, live)) {
                reflood(r, live, after);
            }
        }
        reach.state.restore(vertices);
        List<Effect> effects = new ArrayList<>();
        after.forEach((lp, parts) -> add(effects, lp, parts, vertices));
        if (shared) {
            byLive.put(live, effects);
        }
        return effects;
    }

    private boolean differs(Regions.Region r, List<BitSet> live) {
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

    /** Floods a region again, once for all parts that the same levers matter to. */
    private void reflood(Regions.Region r, List<BitSet> live, Map<Integer, Map<Part, After>> after) {
        Map<List<Integer>, List<Part>> bySet = new LinkedHashMap<>();
        for (Part p : reach.partsOfRegion.get(r.index)) {
            int n = p.cases();
            after.computeIfAbsent(p.loadPoint, k -> new HashMap<>())
                    .put(p, new After(new long[n], new long[n], new long[n], new long[n]));
            bySet.computeIfAbsent(java.util.Arrays.stream(p.levers).boxed().toList(), k -> new ArrayList<>())
                    .add(p);
        }
        for (int t = 0; t < reach.trunk.positions; t++) {
            reach.state.set(reach.trunk.levers, t);
            BitSet now = live.get(t);
            int[] hot = reach.trunk.fedRoots(r, r.hotRoots, now, reach.state, Net.Kind.BUS);
            int[] neutral = reach.trunk.fedRoots(r, r.neutralRoots, now, reach.state, Net.Kind.NEUTRAL_BAR);
            int[] ground = reach.trunk.fedRoots(r, r.groundRoots, now, reach.state, Net.Kind.GROUND_BAR);
            for (List<Part> parts : bySet.values()) {
                Part first = parts.get(0);
                for (int k = 0; k < first.positions; k++) {
                    reach.state.set(first.levers, k);
                    int c = t * first.positions + k;
                    mark(hot);
                    parts.forEach(p -> of(after, p).hot()[c] = mask(p));
                    mark(neutral);
                    parts.forEach(p -> of(after, p).neutral()[c] = mask(p));
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

    private static After of(Map<Integer, Map<Part, After>> after, Part p) {
        return java.util.Objects.requireNonNull(
                java.util.Objects.requireNonNull(after.get(p.loadPoint)).get(p));
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

    private void add(List<Effect> effects, int lp, Map<Part, After> after, int[] vertices) {
        List<Part> parts = reach.partsOfLoadPoint.get(lp);
        int trunk = reach.trunk.positions;
        Outcome hot = new Outcome(trunk);
        Outcome neutral = new Outcome(trunk);
        Outcome ground = new Outcome(trunk);
        boolean terminalLost = false;
        boolean terminalFewer = false;
        boolean overGround = false;
        for (Part p : parts) {
            After a = after.get(p);
            hot.add(p, p.hot, a == null ? p.hot : a.hot());
            neutral.add(p, p.neutral, a == null ? p.neutral : a.neutral());
            ground.add(p, p.grounded, a == null ? p.grounded : a.grounded());
            if (a != null) {
                terminalLost |= (or(p.hot) & ~or(a.hot())) != 0;
                terminalFewer |= !java.util.Arrays.equals(p.hot, a.hot());
            }
            overGround |= (or(p.neutral) & or(a == null ? p.overGround : a.overGround())) != 0;
        }
        LossRow.Hot h = LossRow.Hot.KEPT;
        if (hot.lost()) {
            h = throughLoads.reaches(lp, vertices) ? LossRow.Hot.LOST_LIVE_THROUGH_LOAD : LossRow.Hot.LOST;
        } else if (terminalLost) {
            h = LossRow.Hot.ONE_OF_TWO;
        } else if (hot.fewer()) {
            h = LossRow.Hot.IMPAIRED;
        }
        LossRow.Neutral n = LossRow.Neutral.KEPT;
        if (neutral.lost()) {
            n = overGround ? LossRow.Neutral.OVER_GROUND : LossRow.Neutral.LOST;
        } else if (neutral.fewer()) {
            n = LossRow.Neutral.IMPAIRED;
        }
        LossRow.Ground g = LossRow.Ground.KEPT;
        if (ground.lost()) {
            g = LossRow.Ground.LOST;
        } else if (ground.fewer()) {
            g = LossRow.Ground.IMPAIRED;
        }
        Effect e = new Effect(lp, h, n, g, hot.fewer(), terminalLost, terminalFewer, always(parts, after));
        if (e.changes() || e.terminalFewer()) {
            effects.add(e);
        }
    }

    /** No case of all parts together is live and loses nothing. */
    private static boolean always(List<Part> parts, Map<Part, After> after) {
        for (int t = 0; t < parts.get(0).trunkPositions; t++) {
            boolean nothingLost = true;
            boolean liveAndNothingLost = false;
            for (Part p : parts) {
                After a = after.get(p);
                boolean some = false;
                for (int c = t * p.positions; c < (t + 1) * p.positions; c++) {
                    boolean loses = a != null && (p.hot[c] & ~a.hot()[c]) != 0;
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
