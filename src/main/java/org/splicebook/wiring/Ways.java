package org.splicebook.wiring;

import java.util.ArrayList;
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
    private final Map<Long, int[]> trunkWays = new HashMap<>();

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

    /** {@return the bus that a root touches, or -1} */
    int bus(int root) {
        for (int i = net.start[root]; i < net.start[root + 1]; i++) {
            if (net.kind[net.adjacent[i]] == Net.Kind.BUS) {
                return net.adjacent[i];
            }
        }
        return -1;
    }

    /** {@return the bar that a root touches, or -1: for ground a ground bar or the neutral bar, whichever comes first} */
    int bar(int root, Conductor over) {
        for (int i = net.start[root]; i < net.start[root + 1]; i++) {
            Net.Kind k = net.kind[net.adjacent[i]];
            if (k == Net.Kind.NEUTRAL_BAR || (k == Net.Kind.GROUND_BAR && over == Conductor.GROUND)) {
                return net.adjacent[i];
            }
        }
        return -1;
    }

    /** {@return the way from a bus or bar on to a source, over the trunk, in one of its positions} */
    int[] trunkWay(int busOrBar, int position) {
        long key = (long) busOrBar << 32 | position;
        int[] known = trunkWays.get(key);
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
        int[] way = {busOrBar};
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            Net.Kind k = net.kind[v];
            if (k == Net.Kind.SOURCE_POLE || k == Net.Kind.SOURCE_NEUTRAL || k == Net.Kind.SOURCE_GROUND) {
                way = trace(v);
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
        reach.state.join(reach.trunk.levers);
        trunkWays.put(key, way);
        return way;
    }

    /** {@return a way inside a region and on over the trunk in one of its positions; its hops are made when they are looked at} */
    Way way(int[] inside, int busOrBar, int position) {
        int[] on = busOrBar < 0 ? Regions.NONE : trunkWay(busOrBar, position);
        Basis basis = weakest(on, weakest(inside, Basis.SEEN));
        Net of = net;
        return new Way(new Later<>(of, () -> hops(of, inside, on)), basis, false);
    }

    /** {@return how many hops such a way has} */
    int length(int[] inside, int busOrBar, int position) {
        int n = inside.length;
        for (int v : busOrBar < 0 ? Regions.NONE : trunkWay(busOrBar, position)) {
            n += contains(inside, v) ? 0 : 1;
        }
        return n;
    }

    private Basis weakest(int[] way, Basis than) {
        Basis basis = than;
        for (int v : way) {
            basis = basis.weaker(net.basis(v));
        }
        return basis;
    }

    /** What both pass is a hop once. */
    private static List<Way.Hop> hops(Net net, int[] inside, int[] on) {
        List<Way.Hop> hops = new ArrayList<>(inside.length + on.length);
        for (int v : inside) {
            hops.add(net.hop(v));
        }
        for (int v : on) {
            if (!contains(inside, v)) {
                hops.add(net.hop(v));
            }
        }
        return hops;
    }

    private static boolean contains(int[] way, int vertex) {
        for (int v : way) {
            if (v == vertex) {
                return true;
            }
        }
        return false;
    }
}
