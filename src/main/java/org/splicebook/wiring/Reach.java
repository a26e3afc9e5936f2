package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What every load terminal and wire reaches as recorded, region by region, in every position of the levers that matter to it. A lever
 * matters to a target when it lies on some simple way from a root to it, all levers joined; the others cannot change what it reaches.
 */
final class Reach {
    /** Up to this many positions all levers of a region are tried together. */
    private static final int SMALL = 2;
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
    final WireCounts wireUses;

    private final BlockTree hot;
    private final BlockTree neutral;
    private final BlockTree ground;

    Reach(Net net) {
        this.net = net;
        this.regions = net.regions();
        this.state = new LeverState(net);
        this.wireUses = new WireCounts(net);
        BlockTree.Slate slate = new BlockTree.Slate(net);
        this.hot = new BlockTree(net, slate);
        this.trunk = new Trunk(net, regions, state, hot);
        this.neutral = new BlockTree(net, slate);
        this.ground = new BlockTree(net, slate);
        regions.all.forEach(r -> partsOfRegion.add(List.of()));
        makeParts();
        for (Regions.Region r : regions.all) {
            if (hasRoots(r)) {
                survey(r);
            }
        }
    }

    private void makeParts() {
        Ints in = new Ints();
        Ints here = new Ints();
        for (int i = 0; i < net.loadPoints.size(); i++) {
            Net.LoadPoint lp = net.loadPoints.get(i);
            in.clear();
            for (int t : lp.terminals()) {
                in.add(regions.of[t]);
            }
            if (lp.ground() >= 0) {
                in.add(regions.of[lp.ground()]);
            }
            List<Part> parts = new ArrayList<>();
            for (int region : in.distinct()) {
                here.clear();
                for (int t : lp.terminals()) {
                    if (regions.of[t] == region) {
                        here.add(t);
                    }
                }
                boolean groundHere = lp.ground() >= 0 && regions.of[lp.ground()] == region;
                Regions.Region r = regions.all.get(region);
                Part part = new Part(i, parts.size(), r, here.toArray(), groundHere ? lp.ground() : -1);
                if (!hasRoots(r)) {
                    part.size(trunk.positions, Regions.NONE, 1);
                }
                parts.add(part);
                if (partsOfRegion.get(region).isEmpty()) {
                    partsOfRegion.set(region, new ArrayList<>(4));
                }
                partsOfRegion.get(region).add(part);
            }
            partsOfLoadPoint.add(parts);
        }
    }

    private static boolean hasRoots(Regions.Region r) {
        return r.hotRoots.length + r.neutralRoots.length + r.groundRoots.length > 0;
    }

    private void survey(Regions.Region r) {
        List<Part> parts = partsOfRegion.get(r.index);
        int[] free = r.levers.length == 0
                ? Regions.NONE
                : java.util.Arrays.stream(r.levers)
                        .filter(l -> java.util.Arrays.binarySearch(trunk.levers, l) < 0)
                        .toArray();
        if (LeverState.combinations(net, free, SMALL) <= SMALL) {
            enumerate(r, free, List.of(new Group(free, parts, r.wires)));
            return;
        }
        Map<BitSet, List<Part>> partSets = new LinkedHashMap<>();
        Map<BitSet, Ints> wireSets = new LinkedHashMap<>();
        hotFed = r.hotRoots;
        neutralFed = r.neutralRoots;
        groundFed = r.groundRoots;
        build();
        Relevance relevance = new Relevance(net, r, free, List.of(hot, neutral, ground));
        for (Part p : parts) {
            BitSet set = new BitSet();
            for (int t : p.terminals) {
                relevance.add(set, t);
            }
            if (p.ground >= 0) {
                relevance.addOfLast(set, p.ground);
            }
            partSets.computeIfAbsent(set, k -> new ArrayList<>()).add(p);
        }
        for (int w : r.wires) {
            BitSet set = new BitSet();
            relevance.add(set, w);
            wireSets.computeIfAbsent(set, k -> new Ints()).add(w);
        }
        partSets.keySet().forEach(k -> wireSets.computeIfAbsent(k, x -> new Ints()));
        List<Group> groups = new ArrayList<>();
        long apart = 0;
        for (Map.Entry<BitSet, Ints> e : wireSets.entrySet()) {
            int[] levers = e.getKey().stream().toArray();
            groups.add(new Group(
                    levers,
                    partSets.getOrDefault(e.getKey(), List.of()),
                    e.getValue().toArray()));
            apart += LeverState.combinations(net, levers, CAP);
        }
        if (LeverState.combinations(net, free, CAP) <= Math.min(apart, CAP)) {
            enumerate(r, free, groups);
        } else {
            groups.forEach(g -> enumerate(r, g.levers, List.of(g)));
        }
    }

    /** What the same levers of a region matter to. */
    @SuppressWarnings("ArrayRecordComponent") // levers and wires, never compared
    private record Group(int[] levers, List<Part> parts, int[] wires) {}

    /**
     * Looks at every position of these levers, among which are those of every group. What does not matter to a group may stand anyhow: it
     * is looked at where that stands in its first position.
     */
    private void enumerate(Regions.Region r, int[] levers, List<Group> groups) {
        int count = (int) LeverState.combinations(net, levers, CAP);
        int[] used = levers;
        if (count > CAP) {
            used = new int[0];
            count = 1;
        }
        boolean joined = used != levers || trunk.joined;
        for (Group g : groups) {
            int[] own = used == levers ? g.levers : used;
            int its = (int) LeverState.combinations(net, own, CAP);
            for (Part p : g.parts) {
                p.size(trunk.positions, own, its);
                p.joined = joined;
            }
            for (int w : g.wires) {
                wireUses.begin(w, joined ? JOINED : trunk.positions * its);
            }
        }
        int[][][] fed = new int[trunk.positions][][];
        for (int t = 0; t < trunk.positions; t++) {
            state.set(trunk.levers, t);
            BitSet live = trunk.live.get(t);
            fed[t] = new int[][] {
                trunk.fedRoots(r, r.hotRoots, live, state, Net.Kind.BUS),
                trunk.fedRoots(r, r.neutralRoots, live, state, Net.Kind.NEUTRAL_BAR),
                trunk.fedRoots(r, r.groundRoots, live, state, Net.Kind.GROUND_BAR)
            };
        }
        boolean branch = isBranch(r);
        int next;
        for (int t = 0; t < trunk.positions; t = next) {
            next = t + 1;
            while (branch && next < trunk.positions && java.util.Arrays.deepEquals(fed[next], fed[t])) {
                next++;
            }
            state.set(trunk.levers, t);
            hotFed = fed[t][0];
            neutralFed = fed[t][1];
            groundFed = fed[t][2];
            for (int p = 0; p < count; p++) {
                state.set(used, p);
                build();
                for (Group g : groups) {
                    int at = used == levers ? position(g, levers, p) : 0;
                    if (at >= 0) {
                        record(at, t, g, next - t);
                    }
                }
            }
            // What comes from the same roots in several positions of the trunk is kept once for all of them.
            for (int same = t + 1; same < next; same++) {
                for (Group g : groups) {
                    for (Part p : g.parts) {
                        p.repeat(same);
                    }
                }
            }
        }
        state.join(used);
        state.join(trunk.levers);
    }

    /** Whether the levers of the trunk change nothing in a region but what feeds it. */
    private boolean isBranch(Regions.Region r) {
        for (int l : r.levers) {
            if (java.util.Arrays.binarySearch(trunk.levers, l) >= 0) {
                return false;
            }
        }
        return true;
    }

    private int[] hotFed = new int[0];
    private int[] neutralFed = new int[0];
    private int[] groundFed = new int[0];

    private void build() {
        hot.build(hotFed, state);
        neutral.build(neutralFed, state);
        ground.build(groundFed, state);
    }

    /** The position of a group's own levers in a position of all; -1 where one that does not matter to it is not in its first. */
    private int position(Group g, int[] levers, int position) {
        int rest = position;
        int own = 0;
        int weight = 1;
        int k = 0;
        for (int l : levers) {
            int n = net.levers.get(l).positions();
            if (k < g.levers.length && g.levers[k] == l) {
                own += rest % n * weight;
                weight *= n;
                k++;
            } else if (rest % n != 0) {
                return -1;
            }
            rest /= n;
        }
        return own;
    }

    /** Keeps what one case shows, which stands for so many like it. */
    private void record(int position, int trunkPosition, Group g, int like) {
        for (Part p : g.parts) {
            int at = trunkPosition * p.positions + position;
            int n = p.terminals.length;
            for (int i = 0; i < n; i++) {
                int t = p.terminals[i];
                if (hot.reaches(t)) {
                    p.hot[at] |= 1L << i;
                    put(p.hotBy, at, n)[i] = hot.dominators(t);
                    p.tangled |= !hot.isOnlyWay(t);
                    put(p.hotRoots, at, n)[i] = rootsOf(hot, hotFed, t);
                    p.ring |= hot.hasRing(t) ? 1L << i : 0;
                    partly(p, hot, t, p.hotBy[at][i]);
                }
                if (neutral.reaches(t)) {
                    p.neutral[at] |= 1L << i;
                    put(p.neutralBy, at, n)[i] = neutral.dominators(t);
                    p.tangled |= !neutral.isOnlyWay(t);
                    put(p.neutralRoots, at, n)[i] = rootsOf(neutral, neutralFed, t);
                    partly(p, neutral, t, p.neutralBy[at][i]);
                }
                if (ground.reaches(t)) {
                    p.overGround[at] |= 1L << i;
                    put(p.overGroundBy, at, n)[i] = ground.dominators(t);
                    p.tangled |= !ground.isOnlyWay(t);
                    put(p.overGroundRoots, at, n)[i] = rootsOf(ground, groundFed, t);
                }
            }
            if (p.ground >= 0 && ground.reaches(p.ground)) {
                p.grounded[at] = 1;
                p.groundBy[at] = new int[][] {ground.dominators(p.ground)};
                p.tangled |= !ground.isOnlyWay(p.ground);
                p.groundRoots[at] = new int[][] {rootsOf(ground, groundFed, p.ground)};
            }
        }
        for (int w : g.wires) {
            if (hot.reaches(w)) {
                for (int root : rootsOf(hot, hotFed, w)) {
                    wireUses.count(w, root, like);
                }
            }
            if (neutral.reaches(w)) {
                wireUses.count(w, WireCounts.NEUTRAL, like);
            }
            if (ground.reaches(w)) {
                wireUses.count(w, WireCounts.GROUND, like);
            }
        }
    }

    /** What is kept of one case, by terminal: made for the first of them that there is something to keep of. */
    private static int[][] put(int[][][] byCase, int at, int terminals) {
        int[][] kept = byCase[at];
        if (kept == null) {
            kept = new int[terminals][];
            byCase[at] = kept;
        }
        return kept;
    }

    private void partly(Part p, BlockTree tree, int terminal, int[] passedByAll) {
        for (int s : p.region.sensors) {
            if (!tree.onSomeWay(s, terminal)) {
                continue;
            }
            boolean byAll = false;
            for (int v : passedByAll) {
                byAll |= v == s;
            }
            if (!byAll) {
                p.passedBySome = Part.with(p.passedBySome, s);
            }
            Integer line = net.lineSide.get(s);
            if (line == null || tree.cameFrom(s) == line) {
                p.passedForwards = Part.with(p.passedForwards, s);
            } else {
                p.passedBackwards = Part.with(p.passedBackwards, s);
            }
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
}
