package org.splicebook.wiring;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Whether a load point that lost its feed is still reached from a live pole through loads: over parts that float, reaching no live
 * pole and no bar that goes on. A bus that lost its feed floats too, with all that hangs on it. All levers are joined, the cautious
 * reading.
 */
final class ThroughLoads {
    private final Reach reach;
    private final Net net;
    private final Map<Integer, List<Integer>> across = new HashMap<>();

    private int[] lastGone = new int[0];
    private BitSet lastLive = new BitSet();
    private boolean lastPlain;
    private final Map<Integer, Boolean> clusters = new HashMap<>();
    /** Regions all of whose loads lead to bars that go on: what floats there is held. */
    private final boolean[] plain;
    /** What each region reaches with nothing gone, levers joined. */
    private final int[] status;

    private final int[] marked;
    private int stamp;
    private boolean lastTrunk;
    private final BitSet lastRegions = new BitSet();

    ThroughLoads(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        for (int[] e : net.loadEdges) {
            across.computeIfAbsent(e[0], k -> new ArrayList<>()).add(e[1]);
            across.computeIfAbsent(e[1], k -> new ArrayList<>()).add(e[0]);
        }
        marked = new int[net.size];
        status = new int[reach.regions.all.size()];
        BitSet live = new BitSet();
        reach.trunk.live.forEach(live::or);
        for (Regions.Region r : reach.regions.all) {
            status[r.index] = explore(r.vertices[0], live, new ArrayList<>());
        }
        plain = new boolean[reach.regions.all.size()];
        java.util.Arrays.fill(plain, true);
        for (int[] e : net.loadEdges) {
            int a = reach.regions.of[e[0]];
            int b = reach.regions.of[e[1]];
            plain[a] &= isHeld(b);
            plain[b] &= isHeld(a);
        }
        for (Regions.Region r : reach.regions.all) {
            plain[r.index] |= isHeld(r.index);
        }
    }

    /** Whether every part of a region, whatever the levers, is held at a bar: it has no hot and no lever. */
    private boolean isHeld(int region) {
        Regions.Region r = reach.regions.all.get(region);
        return r.hotRoots.length == 0
                && r.levers.length == 0
                && r.neutralRoots.length > 0
                && reach.trunk.live.stream()
                        .allMatch(l ->
                                reach.trunk.fedRoots(r, r.neutralRoots, l, reach.state, Net.Kind.NEUTRAL_BAR).length
                                        > 0);
    }

    /** The buses and bars still live; asked many times over for one loss. */
    private BitSet live(int[] gone) {
        for (int v : gone) {
            if (reach.trunk.concerns(v)) {
                return reach.trunk.live(reach.state);
            }
        }
        BitSet live = new BitSet();
        reach.trunk.live.forEach(live::or);
        return live;
    }

    /** {@return whether a load point that lost its feed, these vertices being gone, is reached through loads} */
    boolean reaches(int loadPoint, int[] gone) {
        if (lastGone != gone) {
            lastGone = gone;
            reach.state.remove(gone);
            lastLive = live(gone);
            reach.state.restore(gone);
            lastPlain = isPlain(gone);
            lastTrunk = false;
            lastRegions.clear();
            for (int v : gone) {
                if (!net.cut[v]) {
                    lastTrunk |= reach.trunk.concerns(v);
                    lastRegions.set(reach.regions.of[v]);
                }
            }
            clusters.clear();
        }
        Net.LoadPoint lp = net.loadPoints.get(loadPoint);
        if (lastPlain && java.util.Arrays.stream(lp.terminals()).allMatch(t -> plain[reach.regions.of[t]])) {
            return false;
        }
        reach.state.remove(gone);
        boolean found = false;
        for (int t : lp.terminals()) {
            found |= reach.state.conducts(t) && cluster(t);
        }
        reach.state.restore(gone);
        return found;
    }

    /**
     * Whether a terminal floats and its cluster, of floating parts joined by loads, touches a live part. A cluster has one answer
     * for all that is in it.
     */
    private boolean cluster(int terminal) {
        Boolean known = clusters.get(terminal);
        if (known != null) {
            return known;
        }
        BitSet seen = new BitSet(net.size);
        List<Integer> members = new ArrayList<>();
        Deque<Integer> next = new ArrayDeque<>(List.of(terminal));
        boolean live = false;
        boolean first = true;
        while (!next.isEmpty()) {
            int t = next.poll();
            if (seen.get(t) || !reach.state.conducts(t)) {
                continue;
            }
            List<Integer> part = new ArrayList<>();
            int region = reach.regions.of[t];
            boolean whole = !lastTrunk && !lastRegions.get(region) && status[region] != FLOATS;
            int reached = whole ? status[region] : explore(t, lastLive, part);
            if (reached == FLOATS) {
                members.addAll(part);
                part.forEach(seen::set);
                part.forEach(v -> next.addAll(across.getOrDefault(v, List.of())));
            } else if (first) {
                return false;
            }
            live |= reached == HOT;
            first = false;
        }
        for (int v : members) {
            clusters.put(v, live);
        }
        return live;
    }

    /** Whether only hot wiring of branches goes: then a part with none but plain loads is held at neutral by them. */
    private boolean isPlain(int[] gone) {
        for (int v : gone) {
            if (net.cut[v] || reach.trunk.concerns(v)) {
                return false;
            }
            Regions.Region r = reach.regions.all.get(reach.regions.of[v]);
            if (r.neutralRoots.length + r.groundRoots.length > 0) {
                return false;
            }
        }
        return true;
    }

    private static final int FLOATS = 0;
    private static final int HELD = 1;
    private static final int HOT = 2;

    /** What a part reaches; stops at the first live bus, and lists the part. */
    private int explore(int from, BitSet live, List<Integer> part) {
        stamp++;
        int reached = FLOATS;
        part.add(from);
        marked[from] = stamp;
        for (int i = 0; i < part.size() && reached != HOT; i++) {
            int v = part.get(i);
            if (net.kind[v] == Net.Kind.SOURCE_POLE) {
                reached = HOT;
            } else if (net.kind[v] == Net.Kind.SOURCE_NEUTRAL || net.kind[v] == Net.Kind.SOURCE_GROUND) {
                reached = Math.max(reached, HELD);
            }
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (net.cut[u] && live.get(u)) {
                    reached = net.kind[u] == Net.Kind.BUS ? HOT : Math.max(reached, HELD);
                } else if (marked[u] != stamp && reach.state.conducts(u)) {
                    marked[u] = stamp;
                    part.add(u);
                }
            }
        }
        return reached;
    }
}
