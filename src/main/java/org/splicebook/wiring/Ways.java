package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.record.Basis;

/** Shortest ways, as vertices and as hops for people. */
final class Ways {
    private final Reach reach;
    private final Net net;
    private final int[] from;
    private final int[] stamp;
    private final int[] queue;
    private int now;
    private final Map<Long, List<Integer>> trunkWays = new HashMap<>();

    Ways(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.from = new int[net.size];
        this.stamp = new int[net.size];
        this.queue = new int[net.size];
    }

    /**
     * A shortest way inside a region from a terminal to one of the roots, in the state that the levers have now.
     *
     * @return the vertices, terminal first; empty where there is none
     */
    int[] shortest(int terminal, int[] roots) {
        now++;
        int n = 0;
        queue[n++] = terminal;
        stamp[terminal] = now;
        from[terminal] = -1;
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            for (int r : roots) {
                if (r == v) {
                    return trace(v);
                }
            }
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (stamp[u] != now && !net.cut[u] && reach.state.conducts(u)) {
                    stamp[u] = now;
                    from[u] = v;
                    queue[n++] = u;
                }
            }
        }
        return new int[0];
    }

    private int[] trace(int end) {
        int n = 0;
        for (int v = end; v >= 0; v = from[v]) {
            n++;
        }
        int[] way = new int[n];
        int i = n;
        for (int v = end; v >= 0; v = from[v]) {
            way[--i] = v;
        }
        return way;
    }

    /** {@return a shortest way in one case of a part from a terminal to a root that it reaches: the kept one where there is no other} */
    int[] inCase(Part p, int at, int terminal, int root) {
        int[] only = p.tangled ? null : p.line(at, terminal, root);
        return only != null ? only : inCase(p, at, terminal, new int[] {root});
    }

    /** {@return the way in one case of a part: sets the levers, finds, joins them again} */
    int[] inCase(Part p, int at, int terminal, int[] roots) {
        reach.state.set(reach.trunk.levers, at / p.positions);
        reach.state.set(p.levers, at % p.positions);
        int[] way = shortest(terminal, roots);
        reach.state.join(p.levers);
        reach.state.join(reach.trunk.levers);
        return way;
    }

    /** {@return the cut vertex (bus or bar of that kind) that a root touches, or -1} */
    int touches(int root, Net.Kind... kinds) {
        for (int i = net.start[root]; i < net.start[root + 1]; i++) {
            int u = net.adjacent[i];
            if (Arrays.asList(kinds).contains(net.kind[u])) {
                return u;
            }
        }
        return -1;
    }

    /** {@return the way from a bus or bar on to a source, over the trunk, in one of its positions} */
    List<Integer> trunkWay(int busOrBar, int position) {
        long key = (long) busOrBar << 32 | position;
        List<Integer> known = trunkWays.get(key);
        if (known != null) {
            return known;
        }
        reach.state.set(reach.trunk.levers, position);
        Net.Kind kind = net.kind[busOrBar];
        now++;
        int n = 0;
        queue[n++] = busOrBar;
        stamp[busOrBar] = now;
        from[busOrBar] = -1;
        List<Integer> way = new ArrayList<>();
        for (int i = 0; i < n && way.isEmpty(); i++) {
            int v = queue[i];
            Net.Kind k = net.kind[v];
            if (k == Net.Kind.SOURCE_POLE || k == Net.Kind.SOURCE_NEUTRAL || k == Net.Kind.SOURCE_GROUND) {
                for (int u : trace(v)) {
                    way.add(u);
                }
                break;
            }
            for (int j = net.start[v]; j < net.start[v + 1]; j++) {
                int u = net.adjacent[j];
                if (stamp[u] != now
                        && reach.state.conducts(u)
                        && (net.kind[u] == kind || (!net.cut[u] && reach.trunk.concerns(u)))) {
                    stamp[u] = now;
                    from[u] = v;
                    queue[n++] = u;
                }
            }
        }
        if (way.isEmpty()) {
            way.add(busOrBar);
        }
        reach.state.join(reach.trunk.levers);
        trunkWays.put(key, way);
        return way;
    }

    /** {@return the hops of a way inside a region and on over the trunk in one of its positions} */
    Way hops(int[] inside, int busOrBar, int position) {
        List<Way.Hop> hops = new ArrayList<>();
        Basis basis = Basis.SEEN;
        BitSet passed = new BitSet();
        for (int v : inside) {
            basis = add(hops, v, basis, passed);
        }
        if (busOrBar >= 0) {
            for (int v : trunkWay(busOrBar, position)) {
                basis = add(hops, v, basis, passed);
            }
        }
        return new Way(hops, basis, false);
    }

    private Basis add(List<Way.Hop> hops, int v, Basis basis, BitSet passed) {
        if (passed.get(v)) {
            return basis;
        }
        passed.set(v);
        hops.add(net.hop(v));
        return basis.weaker(net.bases.get(v));
    }
}
