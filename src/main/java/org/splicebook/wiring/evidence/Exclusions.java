package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.wiring.MayNet;

/**
 * What tests exclude: at which points which poles cannot be joined by wires alone, in any position of the switches that matter. Only two
 * agreeing paired tests from different passes get here (design ruling 11).
 */
public final class Exclusions {
    private final MayNet net;
    private final Map<Integer, BitSet> excluded;
    private final Map<Integer, Set<String>> by;
    private final Set<Integer> live;
    private final Map<Integer, BitSet> reachOfPole = new java.util.HashMap<>();
    /** Bars that are held with nothing parted: a hot joined to one is a bolted short, and no way. */
    private final BitSet held;

    /**
     * Makes what tests exclude.
     *
     * @param net the graph
     * @param excluded by point: the poles that do not feed it
     * @param live the points among them that were seen live
     * @param by by point: the sightings that tell so
     */
    Exclusions(MayNet net, Map<Integer, BitSet> excluded, Set<Integer> live, Map<Integer, Set<String>> by) {
        this.net = net;
        this.excluded = excluded;
        this.live = live;
        this.by = by;
        BitSet none = new BitSet();
        this.held = Bars.held(net, none, none);
    }

    /** {@return nothing excluded} */
    public static Exclusions none(MayNet net) {
        return new Exclusions(net, Map.of(), Set.of(), Map.of());
    }

    /** {@return whether nothing is excluded} */
    public boolean isEmpty() {
        return excluded.isEmpty();
    }

    /** {@return whether tests tell something of this point} */
    public boolean tells(int vertex) {
        return excluded.containsKey(vertex);
    }

    /** {@return whether by tests a pole does not feed a point} */
    public boolean excludes(int vertex, int pole) {
        BitSet b = excluded.get(vertex);
        return b != null && b.get(pole);
    }

    /** {@return the sightings that exclude something at a point} */
    public Set<String> sightings(int vertex) {
        return new TreeSet<>(by.getOrDefault(vertex, Set.of()));
    }

    /** {@return the sightings that exclude a pole somewhere} */
    public Set<String> sightingsAgainst(int pole) {
        Set<String> all = new TreeSet<>();
        excluded.forEach((v, poles) -> {
            if (poles.get(pole)) {
                all.addAll(by.getOrDefault(v, Set.of()));
            }
        });
        return all;
    }

    /**
     * {@return whether by tests two points are not one conductor: one was seen live, and no pole may feed both}
     *
     * @param a a point
     * @param b another
     */
    public boolean apart(int a, int b) {
        BitSet notA = excluded.get(a);
        BitSet notB = excluded.get(b);
        if (a == b || notA == null || notB == null || !live.contains(a) || !live.contains(b)) {
            return false;
        }
        for (MayNet.Handle h : net.handles()) {
            for (int p : h.poles()) {
                if (net.kind(p) == MayNet.Kind.POLE && !notA.get(p) && !notB.get(p)) {
                    return false;
                }
            }
        }
        return true;
    }

    /** {@return whether tests count where these bars are held: not where a target parts what holds one} */
    public boolean countWhere(BitSet heldThen) {
        return isEmpty() || heldThen.equals(held);
    }

    /** {@return the things a pole may be joined to over wires alone, from its terminal on} */
    public BitSet reach(int pole) {
        return reachOfPole.computeIfAbsent(pole, this::flood);
    }

    private BitSet flood(int pole) {
        BitSet seen = new BitSet(net.nodes());
        BitSet things = new BitSet(net.size());
        int[] queue = new int[net.nodes()];
        int[] n = {0};
        queue[n[0]++] = pole;
        seen.set(pole);
        for (int i = 0; i < n[0]; i++) {
            int node = queue[i];
            int v = net.thingOf(node);
            if (v >= 0) {
                if (excludes(v, pole)) {
                    continue;
                }
                things.set(v);
                if (held.get(v)) {
                    continue;
                }
            }
            net.forEachNext(node, u -> {
                if (!seen.get(u) && !isEnd(u) && !(node == pole && isBus(u))) {
                    seen.set(u);
                    queue[n[0]++] = u;
                }
            });
        }
        return things;
    }

    private boolean isBus(int node) {
        return node < net.size() && net.kind(node) == MayNet.Kind.BUS;
    }

    private boolean isEnd(int node) {
        if (node >= net.size()) {
            return false;
        }
        return switch (net.kind(node)) {
            case POLE, MAIN_POLE, SOURCE_POLE, SOURCE_NEUTRAL, SOURCE_GROUND -> true;
            default -> false;
        };
    }
}
