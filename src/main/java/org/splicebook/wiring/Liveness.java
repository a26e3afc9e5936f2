package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;

/**
 * Which wires are live as recorded while some breakers are off, straight from a pole or through loads. Every lever conducts in all of its
 * positions at once, the cautious reading; what is not recorded plays no part here.
 */
public final class Liveness {
    private static final int NOT_FOUND = -1;

    private final Net net;
    private final LeverState state;
    private final BitSet live;
    private final BitSet held = new BitSet();
    private final Map<Integer, List<int[]>> across = new HashMap<>();
    private final Map<Integer, String> loadOf = new HashMap<>();
    private final Map<String, List<LiveWire>> found = new TreeMap<>();

    private int[] from = new int[0];

    /**
     * One pole that a wire is live from.
     *
     * @param wire the wire
     * @param pole the pole, or the pole of a source
     * @param breaker the pole's breaker; the source where there is none between
     * @param through the loads that it is reached through, from the pole on; empty where it is reached by wires and switches alone
     * @param way one shortest way from the wire to the pole
     */
    public record LiveWire(String wire, String pole, String breaker, List<String> through, Way way) {
        public LiveWire {
            through = List.copyOf(through);
        }
    }

    private Liveness(House house, Collection<String> off) {
        this.net = NetBuilder.build(house);
        this.state = new LeverState(net);
        Trunk trunk = new Trunk(net, net.regions(), state);
        state.remove(poles(house, off));
        this.live = trunk.live(state);
        for (Net.LoadPoint lp : net.loadPoints) {
            for (int[] pair : lp.pairs()) {
                loadOf.put(pair[0], lp.id());
                loadOf.put(pair[1], lp.id());
            }
        }
        for (int[] e : net.loadEdges) {
            across.computeIfAbsent(e[0], k -> new ArrayList<>()).add(e);
            across.computeIfAbsent(e[1], k -> new ArrayList<>()).add(e);
        }
    }

    /**
     * {@return the poles that each wire is live from, by wire; wires that are live from none are absent}
     *
     * @param off the breakers that are off, for example {@code main.5+7}; those tied to them have to be named too
     */
    public static Map<String, List<LiveWire>> withOff(House house, Collection<String> off) {
        Liveness l = new Liveness(house, off);
        l.hold();
        for (int v = 0; v < l.net.size; v++) {
            if (l.isRoot(v)) {
                l.spread(v);
            }
        }
        return l.found;
    }

    private int[] poles(House house, Collection<String> off) {
        List<Integer> poles = new ArrayList<>();
        house.panels().values().forEach(p -> {
            for (Breaker b : p.breakers().values()) {
                if (off.contains(p.name() + "." + b.key())) {
                    b.spaces().forEach(s -> poles.add(net.poles.getOrDefault(p.name() + "." + s, NOT_FOUND)));
                }
            }
        });
        poles.removeIf(v -> v == NOT_FOUND);
        return Regions.ints(poles);
    }

    /** A pole on a live bus, or a pole of a source. */
    private boolean isRoot(int v) {
        return state.conducts(v)
                && (net.kind[v] == Net.Kind.SOURCE_POLE || (net.kind[v] == Net.Kind.POLE && touchesLive(v)));
    }

    private boolean touchesLive(int v) {
        for (int i = net.start[v]; i < net.start[v + 1]; i++) {
            if (net.kind[net.adjacent[i]] == Net.Kind.BUS && live.get(net.adjacent[i])) {
                return true;
            }
        }
        return false;
    }

    /** Buses and bars that lost their source float, and join like a wire. */
    private boolean passes(int v) {
        return state.conducts(v) && !(net.cut[v] && live.get(v));
    }

    /** Marks all that a live pole, neutral bar or ground bar holds: no voltage comes to it through a load. */
    private void hold() {
        int[] queue = new int[net.size];
        int n = 0;
        for (int v = 0; v < net.size; v++) {
            boolean isBar = net.kind[v] == Net.Kind.NEUTRAL_BAR || net.kind[v] == Net.Kind.GROUND_BAR;
            if ((isBar && live.get(v)) || isRoot(v)) {
                held.set(v);
                queue[n++] = v;
            }
        }
        for (int i = 0; i < n; i++) {
            for (int k = net.start[queue[i]]; k < net.start[queue[i] + 1]; k++) {
                int u = net.adjacent[k];
                if (passes(u) && !held.get(u)) {
                    held.set(u);
                    queue[n++] = u;
                }
            }
        }
    }

    /** Walks from one pole over wires, then on through loads into what floats, and notes the wires it comes to. */
    private void spread(int root) {
        from = new int[net.size];
        java.util.Arrays.fill(from, NOT_FOUND);
        BitSet throughLoad = new BitSet();
        int[] queue = new int[net.size];
        int n = 0;
        queue[n++] = root;
        from[root] = root;
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (from[u] == NOT_FOUND && passes(u)) {
                    from[u] = v;
                    queue[n++] = u;
                }
            }
            for (int[] e : across.getOrDefault(v, List.of())) {
                int u = e[0] == v ? e[1] : e[0];
                if (from[u] == NOT_FOUND && passes(u) && !held.get(u)) {
                    from[u] = v;
                    throughLoad.set(u);
                    queue[n++] = u;
                }
            }
        }
        for (int i = 0; i < n; i++) {
            if (net.kind[queue[i]] == Net.Kind.WIRE) {
                note(root, queue[i], throughLoad);
            }
        }
    }

    private void note(int root, int wire, BitSet throughLoad) {
        List<Way.Hop> hops = new ArrayList<>();
        List<String> through = new ArrayList<>();
        Basis basis = Basis.SEEN;
        for (int v = wire; ; v = from[v]) {
            hops.add(net.hop(v));
            basis = basis.weaker(net.basis(v));
            if (throughLoad.get(v)) {
                String terminal = net.name(v);
                through.add(loadOf.getOrDefault(v, terminal.substring(0, terminal.indexOf('.'))));
            }
            if (v == root) {
                break;
            }
        }
        Collections.reverse(through);
        String pole = net.name(root);
        String breaker = net.breakerOf.getOrDefault(root, pole.substring(0, pole.lastIndexOf('.')));
        String name = net.name(wire);
        found.computeIfAbsent(name, k -> new ArrayList<>())
                .add(new LiveWire(name, pole, breaker, through, new Way(hops, basis, false)));
    }
}
