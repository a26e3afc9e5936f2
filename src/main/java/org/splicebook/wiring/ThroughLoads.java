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

    ThroughLoads(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        for (int[] e : net.loadEdges) {
            across.computeIfAbsent(e[0], k -> new ArrayList<>()).add(e[1]);
            across.computeIfAbsent(e[1], k -> new ArrayList<>()).add(e[0]);
        }
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

    boolean reaches(int loadPoint, int[] gone) {
        LeverState state = reach.state;
        state.remove(gone);
        if (lastGone != gone) {
            lastGone = gone;
            lastLive = live(gone);
        }
        BitSet live = lastLive;
        BitSet seen = new BitSet(net.size);
        BitSet hot = new BitSet(net.size);
        Deque<Integer> floating = new ArrayDeque<>();
        boolean found = false;
        for (int t : net.loadPoints.get(loadPoint).terminals()) {
            floating.add(t);
        }
        int starts = floating.size();
        while (!floating.isEmpty() && !found) {
            int t = floating.poll();
            boolean start = starts-- > 0;
            if (seen.get(t) || !state.conducts(t)) {
                found = !start && hot.get(t);
                continue;
            }
            List<Integer> part = new ArrayList<>();
            int reached = explore(t, seen, live, part);
            if (reached == HOT) {
                part.forEach(hot::set);
                found = !start;
            } else if (reached == FLOATS) {
                for (int v : part) {
                    floating.addAll(across.getOrDefault(v, List.of()));
                }
            }
        }
        state.restore(gone);
        return found;
    }

    private static final int FLOATS = 0;
    private static final int HELD = 1;
    private static final int HOT = 2;

    private int explore(int from, BitSet seen, BitSet live, List<Integer> part) {
        int reached = FLOATS;
        part.add(from);
        seen.set(from);
        for (int i = 0; i < part.size(); i++) {
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
                } else if (!seen.get(u) && reach.state.conducts(u)) {
                    seen.set(u);
                    part.add(u);
                }
            }
        }
        return reached;
    }
}
