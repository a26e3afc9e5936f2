package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * What brings current from the sources to the buses and back from the bars: feeder regions, mains, buses and bars. Gives, for each
 * position of the levers in it, which buses and bars go on to a source.
 */
final class Trunk {
    /** More positions than this are joined. */
    private static final long CAP = 64;

    final int[] levers;
    final int positions;
    /** Whether there were too many positions to try. */
    final boolean joined;
    /** Live buses and bars by position. */
    final List<BitSet> live = new ArrayList<>();
    /** Buses and bars that are live in some position. */
    final BitSet everLive = new BitSet();

    private final Net net;
    private final Regions regions;
    private final int[] queue;
    /** Vertices of feeder regions on some way between two of their buses, bars and sources. */
    private final BitSet between = new BitSet();

    /** The net's edges between buses, bars and what is between them: nothing else leads from one to another. */
    private final int[] start;

    private final int[] adjacent;
    private final int[] seen;
    private int stamp;
    private final Set<String> bonded = new HashSet<>();
    private final List<Integer> poles = new ArrayList<>();
    private final List<Integer> neutrals = new ArrayList<>();
    private final List<Integer> grounds = new ArrayList<>();
    private final List<Integer> neutralBars = new ArrayList<>();

    Trunk(Net net, Regions regions, LeverState state) {
        this(net, regions, state, new BlockTree(net));
    }

    /**
     * @param tree to work with; what it held is lost
     */
    Trunk(Net net, Regions regions, LeverState state, BlockTree tree) {
        this.net = net;
        this.regions = regions;
        this.queue = new int[net.size];
        this.seen = new int[net.size];
        this.start = new int[net.size + 1];
        net.house.panels().values().forEach(p -> {
            if (p.bonded() || regions.holdsMainBond(p.name())) {
                bonded.add(p.name());
            }
        });
        bonded.addAll(net.straps);
        Set<Integer> found = new HashSet<>();
        for (Regions.Region r : regions.all) {
            if (r.hotFeeder || r.neutralFeeder) {
                found.addAll(leversBetween(r, tree, state));
            }
        }
        this.adjacent = leaveBranchesOut();
        for (int v = 0; v < net.size; v++) {
            switch (net.kind[v]) {
                case SOURCE_POLE -> poles.add(v);
                case SOURCE_NEUTRAL -> neutrals.add(v);
                case SOURCE_GROUND -> grounds.add(v);
                case NEUTRAL_BAR -> neutralBars.add(v);
                default -> {}
            }
        }
        int[] all = Regions.ints(found);
        boolean few = LeverState.combinations(net, all, CAP) <= CAP;
        joined = !few;
        levers = few ? all : new int[0];
        positions = (int) LeverState.combinations(net, levers, CAP);
        for (int t = 0; t < positions; t++) {
            state.set(levers, t);
            live.add(live(state));
        }
        live.forEach(everLive::or);
        state.join(levers);
    }

    private int[] leaveBranchesOut() {
        Ints kept = new Ints();
        for (int v = 0; v < net.size; v++) {
            for (int k = net.start[v]; k < net.start[v + 1] && (net.cut[v] || between.get(v)); k++) {
                int u = net.adjacent[k];
                if (net.cut[u] || between.get(u)) {
                    kept.add(u);
                }
            }
            start[v + 1] = kept.size();
        }
        return kept.toArray();
    }

    /**
     * {@return a number for the row that a vertex is in, its own where it is in none}: vertices in a row have no branch between them, so the
     * loss of any takes the same buses and bars away
     */
    int row(int v) {
        int at = v;
        int from = -1;
        while (isLink(at)) {
            int on =
                    net.adjacent[net.start[at]] == from ? net.adjacent[net.start[at] + 1] : net.adjacent[net.start[at]];
            if (on == v || !isLink(on)) {
                break;
            }
            from = at;
            at = on;
        }
        return at;
    }

    private boolean isLink(int v) {
        return net.start[v + 1] - net.start[v] == 2 && !net.cut[v] && net.lever[v] < 0 && !isSource(v);
    }

    private boolean isSource(int v) {
        Net.Kind k = net.kind[v];
        return k == Net.Kind.SOURCE_POLE || k == Net.Kind.SOURCE_NEUTRAL || k == Net.Kind.SOURCE_GROUND;
    }

    /**
     * The levers of a feeder region that lie on some simple way between two of its buses, bars or sources: with an imagined root
     * joined to all of these, what lies so is in one block with the root. Switches of a branch that hangs on a feeder do not.
     */
    private Set<Integer> leversBetween(Regions.Region r, BlockTree tree, LeverState state) {
        List<Integer> ends = new ArrayList<>();
        for (int v : r.vertices) {
            int joined = isSource(v) ? 1 : 0;
            for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                joined += net.cut[net.adjacent[i]] ? 1 : 0;
            }
            if (joined > 0) {
                ends.add(v);
            }
            if (joined > 1) {
                between.set(v);
            }
        }
        tree.build(Regions.ints(ends), state);
        Set<Integer> found = new HashSet<>();
        for (int v : r.vertices) {
            if (tree.reaches(v) && tree.isBesideRoots(v)) {
                between.set(v);
                if (net.lever[v] >= 0) {
                    found.add(net.lever[v]);
                }
            }
        }
        return found;
    }

    /** {@return the live buses and bars in this state} */
    BitSet live(LeverState state) {
        BitSet found = new BitSet(net.size);
        flood(poles, state, found, Net.Kind.BUS);
        flood(neutrals, state, found, Net.Kind.NEUTRAL_BAR);
        flood(grounds, state, found, Net.Kind.GROUND_BAR);
        for (int v : neutralBars) {
            if (found.get(v) && bonded.contains(net.panel(v))) {
                bondGround(v, state, found);
            }
        }
        return found;
    }

    private void bondGround(int neutralBar, LeverState state, BitSet found) {
        String panel = net.panel(neutralBar);
        int bar = java.util.Objects.requireNonNull(net.byTerminal.get(panel + ".g"));
        flood(List.of(bar), state, found, Net.Kind.GROUND_BAR);
        if (!regions.holdsMainBond(panel)) {
            return;
        }
        for (int i = net.start[neutralBar]; i < net.start[neutralBar + 1]; i++) {
            int u = net.adjacent[i];
            if (!net.cut[u] && regions.all.get(regions.of[u]).groundOnly && state.conducts(u)) {
                flood(List.of(u), state, found, Net.Kind.GROUND_BAR);
            }
        }
    }

    /** Marks the buses or bars of one kind that these vertices reach over feeder regions. */
    private void flood(List<Integer> from, LeverState state, BitSet found, Net.Kind kind) {
        stamp++;
        int n = 0;
        for (int v : from) {
            if (state.conducts(v)) {
                queue[n++] = v;
                seen[v] = stamp;
                if (net.kind[v] == kind) {
                    found.set(v);
                }
            }
        }
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            for (int k = start[v]; k < start[v + 1]; k++) {
                int u = adjacent[k];
                if (seen[u] == stamp) {
                    continue;
                }
                if (net.kind[u] == kind) {
                    found.set(u);
                } else if (net.cut[u] || !state.conducts(u) || !isTrunk(regions.all.get(regions.of[u]), kind)) {
                    continue;
                }
                seen[u] = stamp;
                queue[n++] = u;
            }
        }
    }

    /** Whether a bus or neutral bar goes on to a source; stops at the first. */
    private boolean goesOn(int busOrBar, LeverState state) {
        Net.Kind kind = net.kind[busOrBar];
        Net.Kind source = kind == Net.Kind.BUS ? Net.Kind.SOURCE_POLE : Net.Kind.SOURCE_NEUTRAL;
        stamp++;
        int n = 0;
        queue[n++] = busOrBar;
        seen[busOrBar] = stamp;
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            if (net.kind[v] == source) {
                return true;
            }
            for (int k = start[v]; k < start[v + 1]; k++) {
                int u = adjacent[k];
                if (seen[u] != stamp
                        && (net.kind[u] == kind
                                || (!net.cut[u]
                                        && state.conducts(u)
                                        && isTrunk(regions.all.get(regions.of[u]), kind)))) {
                    seen[u] = stamp;
                    queue[n++] = u;
                }
            }
        }
        return false;
    }

    private static boolean isTrunk(Regions.Region r, Net.Kind kind) {
        return kind == Net.Kind.BUS ? r.hotFeeder : r.neutralFeeder && (kind == Net.Kind.GROUND_BAR || !r.groundOnly);
    }

    /** {@return the source poles that each bus reaches, in any position} */
    Map<Integer, Set<String>> sourcePoles(LeverState state) {
        Map<Integer, Set<String>> found = new HashMap<>();
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] != Net.Kind.SOURCE_POLE) {
                continue;
            }
            BitSet reached = new BitSet(net.size);
            for (int t = 0; t < positions; t++) {
                state.set(levers, t);
                flood(List.of(v), state, reached, Net.Kind.BUS);
            }
            state.join(levers);
            String name = net.name(v);
            reached.stream()
                    .forEach(b -> found.computeIfAbsent(b, x -> new TreeSet<>()).add(name));
        }
        return found;
    }

    /** {@return whether a vertex of a feeder region lies on no way between its buses, bars and sources: its loss takes none away} */
    boolean isDeadEnd(int v) {
        return !between.get(v);
    }

    /** {@return the vertices whose loss may take a bus or bar away: those of feeder regions} */
    boolean concerns(int v) {
        if (net.cut[v]) {
            return false;
        }
        Regions.Region r = regions.all.get(regions.of[v]);
        return r.hotFeeder || r.neutralFeeder;
    }

    /**
     * {@return the roots of a region that are fed in this state}
     *
     * @param roots its hot, neutral or ground roots
     */
    int[] fedRoots(Regions.Region r, int[] roots, BitSet liveNow, LeverState state, Net.Kind kind) {
        boolean feeder = kind == Net.Kind.BUS ? r.hotFeeder : r.neutralFeeder;
        int n = 0;
        int[] fed = new int[roots.length];
        for (int v : roots) {
            if (isFed(v, liveNow, kind) && (!feeder || isSupplying(v, state, kind))) {
                fed[n++] = v;
            }
        }
        return n == roots.length ? roots : java.util.Arrays.copyOf(fed, n);
    }

    /** Whether what feeds a root comes from elsewhere than over the root itself. */
    private boolean isSupplying(int v, LeverState state, Net.Kind kind) {
        if (!state.conducts(v)) {
            return false;
        }
        if (isSource(v) || isDeadEnd(v)) {
            return true;
        }
        int[] one = {v};
        state.remove(one);
        boolean still = kind == Net.Kind.GROUND_BAR ? isFed(v, live(state), kind) : anyGoesOn(v, state, kind);
        state.restore(one);
        return still;
    }

    private boolean anyGoesOn(int v, LeverState state, Net.Kind kind) {
        for (int i = net.start[v]; i < net.start[v + 1]; i++) {
            int u = net.adjacent[i];
            if (net.kind[u] == kind && goesOn(u, state)) {
                return true;
            }
        }
        return false;
    }

    private boolean isFed(int v, BitSet liveNow, Net.Kind kind) {
        if (isSource(v)) {
            return true;
        }
        for (int i = net.start[v]; i < net.start[v + 1]; i++) {
            int u = net.adjacent[i];
            if (net.kind[u] == kind && liveNow.get(u)) {
                return true;
            }
            if (kind == Net.Kind.GROUND_BAR && regions.isBondBar(u) && liveNow.get(u)) {
                return true;
            }
        }
        return false;
    }
}
