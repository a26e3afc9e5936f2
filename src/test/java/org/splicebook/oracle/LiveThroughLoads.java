package org.splicebook.oracle;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Load;

/** What a dead load point is still reached by, when loads conduct. */
final class LiveThroughLoads {
    private final Oracle o;
    private final Netlist net;
    private BitSet partsGone = new BitSet();
    private World partsWorld;
    private final List<BitSet> parts = new ArrayList<>();

    LiveThroughLoads(Oracle o) {
        this.o = o;
        this.net = o.net;
        this.partsWorld = World.with(net, World.ALL);
    }

    /** Whether a dead load point is reached from a live pole through loads, over parts that nothing holds at a voltage. */
    boolean reach(Load l, BitSet gone) {
        if (gone != partsGone) {
            partsGone = gone;
            partsWorld = World.with(net, World.ALL).without(gone);
            parts.clear();
        }
        World w = partsWorld;
        Feeders f = o.feeders(w);
        List<int[]> across = new ArrayList<>(net.deviceLoadPairs);
        across.addAll(net.asLoad);
        BitSet seen = new BitSet();
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        for (int t : l.terminals()) {
            if (w.conducts(t) && !fed(f, part(w, f, t)) && !held(f, part(w, f, t))) {
                queue.add(t);
            }
        }
        while (!queue.isEmpty()) {
            BitSet part = part(w, f, queue.poll());
            if (part.intersects(seen)) {
                continue;
            }
            seen.or(part);
            for (int[] pair : across) {
                for (int i = 0; i < 2; i++) {
                    if (part.get(pair[i]) && w.conducts(pair[1 - i])) {
                        BitSet beyond = part(w, f, pair[1 - i]);
                        if (fed(f, beyond)) {
                            return true;
                        }
                        if (!held(f, beyond)) {
                            queue.add(pair[1 - i]);
                        }
                    }
                }
            }
        }
        return false;
    }

    private BitSet part(World w, Feeders f, int start) {
        for (BitSet p : parts) {
            if (p.get(start) && !net.cuts[start]) {
                return p;
            }
        }
        BitSet p = join(w, f, start);
        parts.add(p);
        return p;
    }

    /** What is joined to a vertex; a bus that nothing feeds, or a neutral bar that goes on nowhere, joins like a wire. */
    private BitSet join(World w, Feeders f, int start) {
        BitSet part = w.flood(start);
        BitSet through = new BitSet();
        boolean more = true;
        while (more) {
            more = false;
            for (int v : part.stream().toArray()) {
                Kind k = net.vertices.get(v).kind;
                boolean dead =
                        k == Kind.BUS && f.sources(v).isEmpty() || k == Kind.NEUTRAL_BAR && !f.neutralBars.get(v);
                if (dead && !through.get(v)) {
                    through.set(v);
                    part.or(w.flood(v));
                    more = true;
                }
            }
        }
        return part;
    }

    private boolean fed(Feeders f, BitSet part) {
        return part.stream()
                .mapToObj(net.vertices::get)
                .anyMatch(v -> v.kind == Kind.BUS && !f.sources(v.id).isEmpty() || Feeders.isHotSource(v));
    }

    private boolean held(Feeders f, BitSet part) {
        return part.stream()
                .mapToObj(net.vertices::get)
                .anyMatch(v -> v.kind == Kind.GROUND_BAR || v.kind == Kind.NEUTRAL_BAR && f.neutralBars.get(v.id));
    }
}
