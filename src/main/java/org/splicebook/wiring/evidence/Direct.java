package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.wiring.MayNet;

/** What is, and what may be, joined to one point over wires alone, up to poles and held bars. */
final class Direct {
    final BitSet things;
    final BitSet poles = new BitSet();
    /** Poles that the record joins to it, in some position. */
    final BitSet recordedPoles;

    /** Poles that the record joins to it in every position. */
    final BitSet surePoles = new BitSet();
    /** What the record joins to it in every position. */
    final BitSet sure = new BitSet();

    /** Every switch that may be joined to it. */
    private final Set<String> levers = new TreeSet<>();

    private final Set<Integer> starts = new TreeSet<>();
    private @Nullable Set<String> matter;

    boolean meetsHeldBar;
    boolean meetsUnknown;
    boolean meetsWorld;
    boolean meetsSource;

    private final MayNet net;
    private final BitSet held;

    private Direct(MayNet net, BitSet held) {
        this.net = net;
        this.held = held;
        this.things = new BitSet(net.size());
        this.recordedPoles = new BitSet();
    }

    private enum Extent {
        MAY,
        RECORDED,
        SURE
    }

    /** {@return what may be joined to a point} */
    static Direct from(MayNet net, BitSet held, int start) {
        return without(net, held, new BitSet(), start);
    }

    /** {@return what may be joined to a point with some things taken away} */
    static Direct without(MayNet net, BitSet held, BitSet gone, int start) {
        Direct d = new Direct(net, held);
        d.flood(start, Extent.MAY, gone, d.poles);
        d.starts.add(start);
        d.flood(start, Extent.RECORDED, gone, d.recordedPoles);
        d.flood(start, Extent.SURE, gone, d.surePoles);
        return d;
    }

    /** {@return the switches that may lie between it and what may feed it; those that only lead on to dead ends left out} */
    Set<String> levers() {
        if (matter == null) {
            Set<String> between = new TreeSet<>();
            if (!levers.isEmpty()) {
                starts.forEach(start -> Between.of(net, held, start).stream()
                        .map(net::thingOf)
                        .filter(v -> v >= 0 && net.isOnLever(v))
                        .forEach(v -> between.add(net.lever(v))));
                between.retainAll(levers);
            }
            matter = between;
        }
        return matter;
    }

    /** {@return what is, or may be, joined to one or the other of some points} */
    static Direct ofAny(MayNet net, BitSet held, BitSet gone, java.util.List<Integer> starts) {
        Direct any = new Direct(net, held);
        for (int start : starts) {
            Direct d = without(net, held, gone, start);
            any.things.or(d.things);
            any.poles.or(d.poles);
            any.recordedPoles.or(d.recordedPoles);
            any.surePoles.or(d.surePoles);
            any.sure.or(d.sure);
            any.levers.addAll(d.levers);
            any.starts.add(start);
            any.meetsHeldBar |= d.meetsHeldBar;
            any.meetsUnknown |= d.meetsUnknown;
            any.meetsWorld |= d.meetsWorld;
            any.meetsSource |= d.meetsSource;
        }
        return any;
    }

    /**
     * {@return the poles from which current may come to some points over wires and loads; beyond the graph's things, a bit for what nobody
     * listed and for sources with no pole between}
     */
    static BitSet throughLoads(MayNet net, BitSet held, java.util.List<Integer> starts) {
        BitSet met = new BitSet();
        BitSet seen = new BitSet(net.nodes());
        java.util.ArrayDeque<Integer> queue = new java.util.ArrayDeque<>();
        java.util.function.IntConsumer next = u -> {
            if (!seen.get(u)) {
                seen.set(u);
                queue.add(u);
            }
        };
        starts.forEach(next::accept);
        while (!queue.isEmpty()) {
            int node = queue.remove();
            int v = net.thingOf(node);
            if (node == net.world() || (v >= 0 && net.kind(v) == MayNet.Kind.SOURCE_POLE)) {
                met.set(net.size());
            }
            if (v >= 0 && (net.kind(v) == MayNet.Kind.POLE || net.kind(v) == MayNet.Kind.MAIN_POLE)) {
                met.set(v);
            } else if (v < 0 || !held.get(v)) {
                net.forEachNext(node, next);
                if (v >= 0) {
                    net.forEachAcross(v, next);
                }
            }
        }
        return met;
    }

    private void flood(int start, Extent extent, BitSet gone, BitSet met) {
        BitSet seen = new BitSet(net.nodes());
        int[] queue = new int[net.nodes()];
        int[] n = {0};
        queue[n[0]++] = start;
        seen.set(start);
        for (int i = 0; i < n[0]; i++) {
            int node = queue[i];
            if (!goesOn(node, extent, gone, met, node == start)) {
                continue;
            }
            java.util.function.IntConsumer next = u -> {
                if (!seen.get(u)) {
                    seen.set(u);
                    queue[n[0]++] = u;
                }
            };
            if (extent == Extent.MAY) {
                net.forEachNext(node, next);
            } else {
                net.forEachRecorded(node, next);
            }
        }
    }

    private boolean goesOn(int node, Extent extent, BitSet gone, BitSet met, boolean isStart) {
        int v = net.thingOf(node);
        if (v < 0) {
            meetsUnknown = true;
            meetsWorld |= node == net.world();
            return true;
        }
        if (gone.get(v) || (extent == Extent.SURE && net.isOnLever(v))) {
            return false;
        }
        MayNet.Kind k = net.kind(v);
        if (k == MayNet.Kind.POLE || k == MayNet.Kind.MAIN_POLE) {
            met.set(v);
            return isStart;
        }
        if (extent == Extent.MAY) {
            things.set(v);
            meetsSource |= k == MayNet.Kind.SOURCE_POLE;
            if (net.isOnLever(v)) {
                levers.add(net.lever(v));
            }
        } else if (extent == Extent.SURE) {
            sure.set(v);
        }
        if (held.get(v)) {
            meetsHeldBar = true;
            return false;
        }
        return k != MayNet.Kind.SOURCE_POLE && k != MayNet.Kind.SOURCE_NEUTRAL && k != MayNet.Kind.SOURCE_GROUND;
    }
}
