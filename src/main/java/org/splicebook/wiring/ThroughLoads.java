package org.splicebook.wiring;

import java.util.Arrays;
import java.util.BitSet;
import org.jspecify.annotations.Nullable;

/**
 * Whether a load point that lost its feed is still reached from a live pole through loads: over parts that float, reaching no live
 * pole and no bar that goes on. A bus that lost its feed floats too, with all that hangs on it. All levers are joined, the cautious
 * reading.
 *
 * <p>With its levers joined a region that loses nothing is one piece, so it is walked as one node; only regions that lose a vertex are
 * walked vertex by vertex.
 */
final class ThroughLoads {
    private static final int FLOATS = 0;
    private static final int HELD = 1;
    private static final int HOT = 2;

    private final Reach reach;
    private final Net net;
    /** By vertex, from {@code acrossStart[v]} on: the vertices at the other sides of its loads. */
    private final int[] acrossStart;

    private final int[] across;
    /** By region: the buses and bars it touches, its vertices with a load, and what a source in it makes of it. */
    private final int[][] barsOf;

    private final int[][] loadedOf;
    private final int[] ownOf;
    /** Regions all of whose loads lead to bars that go on: what floats there is held. */
    private final boolean[] plain;

    // One loss: what is gone, what is still live, and the parts found so far. A node is a vertex, or beyond them a
    // whole region.
    private int[] gone = new int[0];
    private BitSet live = new BitSet();
    /** What is live with all levers joined; found when first asked for. */
    private @Nullable BitSet joined;

    private boolean goneIsPlain;
    private int loss;
    private final int[] touchedIn;
    private final int[] knownIn;
    private final int[] partOf;
    private final int[] order;
    private int parts;
    private boolean looked;
    private int[] partStart = new int[16];
    private int[] partReaches = new int[16];
    /** By part: 0 not known, 1 its cluster touches nothing live, 2 it does. */
    private int[] clusterIs = new int[16];

    ThroughLoads(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        int regions = reach.regions.all.size();
        acrossStart = new int[net.size + 1];
        for (int[] e : net.loadEdges) {
            acrossStart[e[0] + 1]++;
            acrossStart[e[1] + 1]++;
        }
        for (int v = 0; v < net.size; v++) {
            acrossStart[v + 1] += acrossStart[v];
        }
        across = new int[acrossStart[net.size]];
        int[] at = Arrays.copyOf(acrossStart, net.size);
        for (int[] e : net.loadEdges) {
            across[at[e[0]]++] = e[1];
            across[at[e[1]]++] = e[0];
        }
        barsOf = new int[regions][];
        loadedOf = new int[regions][];
        ownOf = new int[regions];
        int[] found = new int[net.size];
        int[] seen = new int[net.size];
        for (Regions.Region r : reach.regions.all) {
            describe(r, found, seen);
        }
        touchedIn = new int[regions];
        knownIn = new int[net.size + regions];
        partOf = new int[net.size + regions];
        order = new int[net.size + regions];
        plain = new boolean[regions];
        boolean[] held = new boolean[regions];
        for (Regions.Region r : reach.regions.all) {
            held[r.index] = isHeld(r);
        }
        Arrays.fill(plain, true);
        for (int[] e : net.loadEdges) {
            int a = reach.regions.of[e[0]];
            int b = reach.regions.of[e[1]];
            plain[a] &= held[b];
            plain[b] &= held[a];
        }
        for (int r = 0; r < regions; r++) {
            plain[r] |= held[r];
        }
    }

    private void describe(Regions.Region r, int[] found, int[] seen) {
        int bars = 0;
        for (int v : r.vertices) {
            ownOf[r.index] = Math.max(ownOf[r.index], own(v));
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (net.cut[u] && seen[u] != r.index + 1) {
                    seen[u] = r.index + 1;
                    found[bars++] = u;
                }
            }
        }
        barsOf[r.index] = Arrays.copyOf(found, bars);
        int loaded = 0;
        for (int v : r.vertices) {
            if (acrossStart[v] < acrossStart[v + 1]) {
                found[loaded++] = v;
            }
        }
        loadedOf[r.index] = Arrays.copyOf(found, loaded);
    }

    /** What a vertex is by itself. */
    private int own(int v) {
        return switch (net.kind[v]) {
            case SOURCE_POLE -> HOT;
            case SOURCE_NEUTRAL, SOURCE_GROUND -> HELD;
            default -> FLOATS;
        };
    }

    /** Whether every part of a region, whatever the levers, is held at a bar: it has no hot and no lever. */
    private boolean isHeld(Regions.Region r) {
        return r.hotRoots.length == 0
                && r.levers.length == 0
                && r.neutralRoots.length > 0
                && reach.trunk.live.stream()
                        .allMatch(l ->
                                reach.trunk.fedRoots(r, r.neutralRoots, l, reach.state, Net.Kind.NEUTRAL_BAR).length
                                        > 0);
    }

    /** {@return whether a load point that lost its feed, these vertices being gone, is reached through loads} */
    boolean reaches(int loadPoint, int[] vertices) {
        if (gone != vertices) {
            lose(vertices);
        }
        int[] terminals = net.loadPoints.get(loadPoint).terminals();
        if (goneIsPlain && allPlain(terminals)) {
            return false;
        }
        looked = true;
        reach.state.remove(gone);
        boolean found = false;
        for (int t : terminals) {
            found |= reach.state.conducts(t) && cluster(t);
        }
        reach.state.restore(gone);
        return found;
    }

    void forgetLooks() {
        looked = false;
    }

    /** {@return whether since it was forgotten an answer hung on what exactly is gone} */
    boolean looked() {
        return looked;
    }

    private boolean allPlain(int[] terminals) {
        for (int t : terminals) {
            if (!plain[reach.regions.of[t]]) {
                return false;
            }
        }
        return true;
    }

    private void lose(int[] vertices) {
        lose(vertices, anyTrunk(vertices) ? joined(vertices) : reach.trunk.everLive);
    }

    /** What is still live with all levers joined; without vertices at dead ends of the trunk, all that was. */
    private BitSet joined(int[] vertices) {
        for (int v : vertices) {
            if (!reach.trunk.isDeadEnd(v)) {
                reach.state.remove(vertices);
                BitSet left = reach.trunk.live(reach.state);
                reach.state.restore(vertices);
                return left;
            }
        }
        if (joined == null) {
            joined = reach.trunk.live(reach.state);
        }
        return joined;
    }

    /**
     * Takes vertices away.
     *
     * @param left the buses and bars that are then live, levers joined
     */
    void lose(int[] vertices, BitSet left) {
        gone = vertices;
        goneIsPlain = isPlain();
        live = left;
        loss++;
        parts = 0;
        for (int v : gone) {
            if (!net.cut[v]) {
                touchedIn[reach.regions.of[v]] = loss;
            }
        }
    }

    private boolean anyTrunk(int[] vertices) {
        for (int v : vertices) {
            if (reach.trunk.concerns(v)) {
                return true;
            }
        }
        return false;
    }

    /** Whether only hot wiring of branches goes: then a part with none but plain loads is held at neutral by them. */
    private boolean isPlain() {
        if (anyTrunk(gone)) {
            return false;
        }
        for (int v : gone) {
            if (net.cut[v]) {
                return false;
            }
            Regions.Region r = reach.regions.all.get(reach.regions.of[v]);
            if (r.neutralRoots.length + r.groundRoots.length > 0) {
                return false;
            }
        }
        return true;
    }

    /** Whether a terminal floats and its cluster, of floating parts joined by loads, touches a live part. */
    private boolean cluster(int terminal) {
        int first = part(terminal);
        if (partReaches[first] != FLOATS) {
            return false;
        }
        if (clusterIs[first] != 0) {
            return clusterIs[first] == 2;
        }
        int[] members = {first};
        int n = 1;
        clusterIs[first] = 1;
        boolean touches = false;
        for (int i = 0; i < n && !touches; i++) {
            for (int k = partStart[members[i]]; k < partStart[members[i] + 1] && !touches; k++) {
                int node = order[k];
                int[] loaded = node < net.size ? new int[] {node} : loadedOf[node - net.size];
                for (int v : loaded) {
                    for (int a = acrossStart[v]; a < acrossStart[v + 1] && !touches; a++) {
                        if (!reach.state.conducts(across[a])) {
                            continue;
                        }
                        int p = part(across[a]);
                        touches = partReaches[p] == HOT || clusterIs[p] == 2;
                        if (partReaches[p] == FLOATS && clusterIs[p] == 0) {
                            clusterIs[p] = 1;
                            members = n == members.length ? Arrays.copyOf(members, 2 * n) : members;
                            members[n++] = p;
                        }
                    }
                }
            }
        }
        for (int i = 0; touches && i < n; i++) {
            clusterIs[members[i]] = 2;
        }
        return touches;
    }

    /** The part that a vertex is in: found once for a loss. Stops at the first live bus. */
    private int part(int vertex) {
        int start = node(vertex);
        if (knownIn[start] == loss) {
            return partOf[start];
        }
        int id = parts++;
        if (parts + 1 > partReaches.length) {
            partStart = Arrays.copyOf(partStart, 2 * partStart.length);
            partReaches = Arrays.copyOf(partReaches, partStart.length);
            clusterIs = Arrays.copyOf(clusterIs, partStart.length);
        }
        clusterIs[id] = 0;
        partReaches[id] = FLOATS;
        partStart[0] = 0;
        partStart[id + 1] = partStart[id];
        push(start, id);
        for (int i = partStart[id]; i < partStart[id + 1] && partReaches[id] != HOT; i++) {
            int node = order[i];
            if (node >= net.size) {
                int region = node - net.size;
                meet(id, ownOf[region]);
                for (int bar : barsOf[region]) {
                    arrive(bar, id);
                }
                continue;
            }
            meet(id, own(node));
            for (int k = net.start[node]; k < net.start[node + 1]; k++) {
                arrive(net.adjacent[k], id);
            }
        }
        return id;
    }

    private int node(int vertex) {
        return net.cut[vertex] || touchedIn[reach.regions.of[vertex]] == loss
                ? vertex
                : net.size + reach.regions.of[vertex];
    }

    private void arrive(int u, int id) {
        if (net.cut[u] && live.get(u)) {
            meet(id, net.kind[u] == Net.Kind.BUS ? HOT : HELD);
        } else if (reach.state.conducts(u)) {
            push(node(u), id);
        }
    }

    /** A part met again is one that was left when it was found to be live. */
    private void push(int node, int id) {
        if (knownIn[node] == loss) {
            meet(id, partOf[node] == id ? FLOATS : partReaches[partOf[node]]);
            return;
        }
        knownIn[node] = loss;
        partOf[node] = id;
        order[partStart[id + 1]++] = node;
    }

    private void meet(int id, int what) {
        partReaches[id] = Math.max(partReaches[id], what);
    }
}
