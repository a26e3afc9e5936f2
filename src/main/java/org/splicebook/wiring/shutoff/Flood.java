package org.splicebook.wiring.shutoff;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.BitSet;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/**
 * Everything that may be joined to some nodes, loads and transformers conducting, up to the first poles, and to bars that are held. What
 * tests exclude is kept by going on from load to load: within one conductor a pole counts only where no test speaks against it.
 */
final class Flood {
    /**
     * What a flood goes by.
     *
     * @param gone things taken away, opened poles among them
     * @param lifted wire ends out of their joints
     * @param held bars that end it
     * @param inside poles that conduct
     * @param extent how far it goes
     */
    record Setting(BitSet gone, BitSet lifted, BitSet held, BitSet inside, Extent extent) {}

    /** How far a flood goes. */
    enum Extent {
        /** Over what is recorded and what may be, and through loads. */
        ALL,
        /** Over what is recorded, and through loads. */
        RECORDED,
        /** Over what is recorded and what may be; loads do not conduct. */
        WIRES
    }

    /** The poles first met. */
    final BitSet poles = new BitSet();
    /** Source terminals met with no pole between. */
    final BitSet sources = new BitSet();
    /** Nodes reached. */
    final BitSet seen;
    /** The node before each, on the first way found; -1 for starts. */
    final int[] before;
    /** Nodes that were first come to across a load. */
    final BitSet acrossLoad = new BitSet();

    private final MayNet net;
    private final Setting setting;
    private final Exclusions tests;
    private final ArrayDeque<Integer> entries = new ArrayDeque<>();
    private final BitSet entered = new BitSet();
    /** Nodes reached from entries of which no test tells. */
    private final BitSet free;

    private Flood(MayNet net, Setting setting, Exclusions tests) {
        this.net = net;
        this.setting = setting;
        this.tests = tests;
        this.seen = new BitSet(net.nodes());
        this.free = new BitSet(net.nodes());
        this.before = new int[net.nodes()];
        Arrays.fill(before, -1);
    }

    /** {@return what may be joined to these nodes} */
    static Flood from(MayNet net, Setting setting, Exclusions tests, int... starts) {
        Flood f = new Flood(net, setting, tests);
        for (int s : starts) {
            f.enter(s, -1);
        }
        while (!f.entries.isEmpty()) {
            f.conductor(f.entries.remove());
        }
        return f;
    }

    /** {@return whether something that nobody listed may be joined} */
    boolean reachesWorld() {
        return seen.get(net.world());
    }

    private void enter(int node, int from) {
        boolean thing = node < net.size();
        if (entered.get(node) || (thing && setting.gone.get(node))) {
            return;
        }
        entered.set(node);
        if (!seen.get(node)) {
            before[node] = from;
            if (from >= 0) {
                acrossLoad.set(node);
            }
        }
        entries.add(node);
    }

    /** Goes over one conductor from an entry. */
    private void conductor(int entry) {
        addTested(entry);
        boolean told = entry < net.size() && tests.tells(entry);
        if (!told && free.get(entry)) {
            return;
        }
        BitSet here = told ? new BitSet(net.nodes()) : free;
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        visit(entry, entry, before[entry], here, queue);
        while (!queue.isEmpty()) {
            int node = queue.remove();
            forEachNext(node, u -> {
                if (node >= net.size() || u >= net.size() || !Bars.isParted(net, setting.lifted, node, u)) {
                    visit(entry, u, node, here, queue);
                }
            });
            if (setting.extent != Extent.WIRES) {
                net.forEachAcross(node, u -> enter(u, node));
            }
            int bar = node < net.size() ? Bars.acrossBond(net, node) : -1;
            if (bar >= 0) {
                visit(entry, bar, node, here, queue);
            }
        }
    }

    private void forEachNext(int node, java.util.function.IntConsumer next) {
        if (setting.extent != Extent.RECORDED) {
            net.forEachNext(node, next);
        } else if (node < net.size()) {
            net.forEachRecorded(node, next);
        }
    }

    private void visit(int entry, int node, int from, BitSet here, ArrayDeque<Integer> queue) {
        int v = net.thingOf(node);
        if (here.get(node) || (v >= 0 && setting.gone.get(v))) {
            return;
        }
        if (v >= 0 && node != entry && entry < net.size() && tests.apart(entry, v)) {
            return;
        }
        if (node < net.size() && isPole(node) && !setting.inside.get(node)) {
            if (tests.isEmpty() || !isFromWires(node, from) || entry >= net.size()) {
                see(node, from);
                poles.set(node);
            }
            return;
        }
        here.set(node);
        see(node, from);
        if (node < net.size()) {
            if (net.kind(node) == MayNet.Kind.SOURCE_POLE) {
                sources.set(node);
                if (node != entry) {
                    return;
                }
            }
            if (setting.held.get(node)) {
                return;
            }
        }
        queue.add(node);
    }

    private void see(int node, int from) {
        if (!seen.get(node)) {
            seen.set(node);
            before[node] = from;
        }
    }

    private boolean isPole(int v) {
        MayNet.Kind k = net.kind(v);
        return k == MayNet.Kind.POLE || k == MayNet.Kind.MAIN_POLE;
    }

    /** Where tests tell something, a pole counts for an entry if some way from it to there passes no point at which a test excludes it. */
    private void addTested(int entry) {
        if (tests.isEmpty() || entry >= net.size()) {
            return;
        }
        for (MayNet.Handle h : net.handles()) {
            for (int p : h.poles()) {
                if (net.kind(p) == MayNet.Kind.POLE
                        && !setting.gone.get(p)
                        && !setting.inside.get(p)
                        && tests.reach(p).get(entry)) {
                    see(p, entry);
                    poles.set(p);
                }
            }
        }
    }

    private boolean isFromWires(int pole, int from) {
        return net.kind(pole) == MayNet.Kind.POLE
                && (from < 0 || from >= net.size() || net.kind(from) != MayNet.Kind.BUS);
    }
}
