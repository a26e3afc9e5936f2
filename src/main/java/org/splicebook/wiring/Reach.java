package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What every load terminal and wire reaches as recorded, region by region, in every position of the levers that matter to it. A lever
 * matters to a target when it lies on some simple way from a root to it, all levers joined; the others cannot change what it reaches.
 */
final class Reach {
    /** Up to this many positions all levers of a region are tried together. */
    private static final int SMALL = 16;
    /** More positions than this are joined: may joins everything. */
    static final int CAP = 4096;
    /** In place of a number of cases: the levers were joined. */
    static final int JOINED = -1;

    final Net net;
    final Regions regions;
    final LeverState state;
    final Trunk trunk;
    final List<List<Part>> partsOfLoadPoint = new ArrayList<>();
    final List<List<Part>> partsOfRegion = new ArrayList<>();
    /** How often a wire is in a use, by wire vertex: pole or bar kind to count; -1 neutral, -2 ground. */
    final Map<Integer, Map<Integer, Integer>> wireUses = new LinkedHashMap<>();

    final Map<Integer, Integer> wireCases = new LinkedHashMap<>();

    private final BlockTree hot;
    private final BlockTree neutral;
    private final BlockTree ground;

    Reach(Net net) {
        this.net = net;
        this.regions = net.regions();
        this.state = new LeverState(net);
        this.trunk = new Trunk(net, regions, state);
        this.hot = new BlockTree(net);
        this.neutral = new BlockTree(net);
        this.ground = new BlockTree(net);
        regions.all.forEach(r -> partsOfRegion.add(new ArrayList<>()));
        makeParts();
        for (Regions.Region r : regions.all) {
            if (r.hotRoots.length + r.neutralRoots.length + r.groundRoots.length > 0) {
                survey(r);
            }
        }
    }

    private void makeParts() {
        for (int i = 0; i < net.loadPoints.size(); i++) {
            Net.LoadPoint lp = net.loadPoints.get(i);
            Map<Integer, List<Integer>> byRegion = new TreeMap<>();
            for (int t : lp.terminals()) {
                byRegion.computeIfAbsent(regions.of[t], k -> new ArrayList<>()).add(t);
            }
            if (lp.ground() >= 0) {
                byRegion.computeIfAbsent(regions.of[lp.ground()], k -> new ArrayList<>());
            }
            List<Part> parts = new ArrayList<>();
            for (Map.Entry<Integer, List<Integer>> e : byRegion.entrySet()) {
                int[] terminals =
                        e.getValue().stream().mapToInt(Integer::intValue).toArray();
                boolean groundHere = lp.ground() >= 0 && regions.of[lp.ground()] == e.getKey();
                Part part = new Part(
                        i, parts.size(), regions.all.get(e.getKey()), terminals, groundHere ? lp.ground() : -1);
                part.size(trunk.positions, new int[0], 1);
                parts.add(part);
                partsOfRegion.get(e.getKey()).add(part);
            }
            partsOfLoadPoint.add(parts);
        }
    }

    private void survey(Regions.Region r) {
        List<Part> parts = partsOfRegion.get(r.index);
        List<Integer> wires = new ArrayList<>();
        for (int v : r.vertices) {
            if (net.kind[v] == Net.Kind.WIRE) {
                wires.add(v);
            }
        }
        int[] free = java.util.Arrays.stream(r.levers)
                .filter(l -> java.util.Arrays.binarySearch(trunk.levers, l) < 0)
                .toArray();
        if (LeverState.combinations(net, free, SMALL) <= SMALL) {
            enumerate(r, free, parts, wires);
            return;
        }
        Map<BitSet, List<Part>> partSets = new LinkedHashMap<>();
        Map<BitSet, List<Integer>> wireSets = new LinkedHashMap<>();
        hotFed = r.hotRoots;
        neutralFed = r.neutralRoots;
        groundFed = r.groundRoots;
        build();
        Relevance relevance = new Relevance(net, r, free);
        for (Part p : parts) {
            BitSet set = new BitSet();
            for (int t : p.terminals) {
                relevance.add(set, hot, t);
                relevance.add(set, neutral, t);
                relevance.add(set, ground, t);
            }
            if (p.ground >= 0) {
                relevance.add(set, ground, p.ground);
            }
            partSets.computeIfAbsent(set, k -> new ArrayList<>()).add(p);
        }
        for (int w : wires) {
            BitSet set = new BitSet();
            relevance.add(set, hot, w);
            relevance.add(set, neutral, w);
            relevance.add(set, ground, w);
            wireSets.computeIfAbsent(set, k -> new ArrayList<>()).add(w);
        }
        partSets.keySet().forEach(k -> wireSets.computeIfAbsent(k, x -> new ArrayList<>()));
        wireSets.forEach((set, ws) -> enumerate(r, set.stream().toArray(), partSets.getOrDefault(set, List.of()), ws));
    }

    private void enumerate(Regions.Region r, int[] levers, List<Part> parts, List<Integer> wires) {
        int count = (int) LeverState.combinations(net, levers, CAP);
        int[] used = levers;
        if (count > CAP) {
            used = new int[0];
            count = 1;
        }
        boolean joined = used != levers || trunk.joined;
        for (Part p : parts) {
            p.size(trunk.positions, used, count);
            p.joined = joined;
        }
        for (int w : wires) {
            wireUses.put(w, new TreeMap<>());
            wireCases.put(w, joined ? JOINED : trunk.positions * count);
        }
        for (int t = 0; t < trunk.positions; t++) {
            state.set(trunk.levers, t);
            hotFed = trunk.fedRoots(r, r.hotRoots, trunk.live.get(t), state, Net.Kind.BUS);
            neutralFed = trunk.fedRoots(r, r.neutralRoots, trunk.live.get(t), state, Net.Kind.NEUTRAL_BAR);
            groundFed = trunk.fedRoots(r, r.groundRoots, trunk.live.get(t), state, Net.Kind.GROUND_BAR);
            for (int p = 0; p < count; p++) {
                state.set(used, p);
                build();
                record(t * count + p, parts, wires);
            }
        }
        state.join(used);
        state.join(trunk.levers);
    }

    private int[] hotFed = new int[0];
    private int[] neutralFed = new int[0];
    private int[] groundFed = new int[0];

    private void build() {
        hot.build(hotFed, state);
        neutral.build(neutralFed, state);
        ground.build(groundFed, state);
    }

    private void record(int at, List<Part> parts, List<Integer> wires) {
        for (Part p : parts) {
            int n = p.terminals.length;
            p.hotBy[at] = new int[n][];
            p.neutralBy[at] = new int[n][];
            p.overGroundBy[at] = new int[n][];
            p.hotRoots[at] = new int[n][];
            p.neutralRoots[at] = new int[n][];
            p.overGroundRoots[at] = new int[n][];
            for (int i = 0; i < n; i++) {
                int t = p.terminals[i];
                if (hot.reaches(t)) {
                    p.hot[at] |= 1L << i;
                    p.hotBy[at][i] = hot.dominators(t);
                    p.tangled |= !hot.isOnlyWay(t);
                    p.hotRoots[at][i] = rootsOf(hot, hotFed, t);
                    p.ring |= hot.hasRing(t) ? 1L << i : 0;
                    partly(p, hot, t, p.hotBy[at][i]);
                }
                if (neutral.reaches(t)) {
                    p.neutral[at] |= 1L << i;
                    p.neutralBy[at][i] = neutral.dominators(t);
                    p.tangled |= !neutral.isOnlyWay(t);
                    p.neutralRoots[at][i] = rootsOf(neutral, neutralFed, t);
                    partly(p, neutral, t, p.neutralBy[at][i]);
                }
                if (ground.reaches(t)) {
                    p.overGround[at] |= 1L << i;
                    p.overGroundBy[at][i] = ground.dominators(t);
                    p.tangled |= !ground.isOnlyWay(t);
                    p.overGroundRoots[at][i] = rootsOf(ground, groundFed, t);
                }
            }
            if (p.ground >= 0 && ground.reaches(p.ground)) {
                p.grounded[at] = 1;
                p.groundBy[at] = new int[][] {ground.dominators(p.ground)};
                p.tangled |= !ground.isOnlyWay(p.ground);
                p.groundRoots[at] = new int[][] {rootsOf(ground, groundFed, p.ground)};
            }
        }
        for (int w : wires) {
            Map<Integer, Integer> uses = java.util.Objects.requireNonNull(wireUses.get(w));
            if (hot.reaches(w)) {
                for (int root : rootsOf(hot, hotFed, w)) {
                    uses.merge(root, 1, Integer::sum);
                }
            }
            if (neutral.reaches(w)) {
                uses.merge(-1, 1, Integer::sum);
            }
            if (ground.reaches(w)) {
                uses.merge(-2, 1, Integer::sum);
            }
        }
    }

    private void partly(Part p, BlockTree tree, int terminal, int[] passedByAll) {
        for (int s : p.region.sensors) {
            if (!tree.onSomeWay(s, terminal)) {
                continue;
            }
            if (java.util.Arrays.stream(passedByAll).noneMatch(v -> v == s)) {
                p.passedBySome.add(s);
            }
            Integer line = net.lineSide.get(s);
            boolean forwards = line == null || tree.cameFrom(s) == line;
            (forwards ? p.passedForwards : p.passedBackwards).add(s);
        }
    }

    private int[] rootsOf(BlockTree tree, int[] fed, int target) {
        if (fed.length == 1) {
            return fed;
        }
        int part = tree.part(target);
        int n = 0;
        int[] found = new int[fed.length];
        for (int r : fed) {
            if (tree.reaches(r) && tree.part(r) == part) {
                found[n++] = r;
            }
        }
        return java.util.Arrays.copyOf(found, n);
    }

    /** The levers that lie in each block of a region's trees. */
    private static final class Relevance {
        private final Map<BlockTree, Map<Integer, BitSet>> leversOfBlock = new HashMap<>();
        private final Net net;
        private final Regions.Region region;
        private final BitSet free = new BitSet();

        Relevance(Net net, Regions.Region region, int[] free) {
            this.net = net;
            this.region = region;
            for (int l : free) {
                this.free.set(l);
            }
        }

        void add(BitSet set, BlockTree tree, int target) {
            if (!tree.reaches(target)) {
                return;
            }
            Map<Integer, BitSet> byBlock = leversOfBlock.computeIfAbsent(tree, this::index);
            for (int block : tree.line(target)) {
                BitSet levers = byBlock.get(block);
                if (levers != null) {
                    set.or(levers);
                }
            }
        }

        private Map<Integer, BitSet> index(BlockTree tree) {
            Map<Integer, BitSet> found = new java.util.HashMap<>();
            for (int v : region.vertices) {
                if (net.lever[v] >= 0 && free.get(net.lever[v]) && tree.reaches(v)) {
                    found.computeIfAbsent(tree.blockOf(v), k -> new BitSet()).set(net.lever[v]);
                }
            }
            return found;
        }
    }
}
