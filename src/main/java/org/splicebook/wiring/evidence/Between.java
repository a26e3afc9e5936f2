package org.splicebook.wiring.evidence;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.splicebook.wiring.MayNet;

/**
 * What lies on some way without turning back from a point to a pole, or to something that nobody listed: a switch that only leads on to a
 * dead end does not matter to what feeds the point. Found as the biconnected part that holds the point and an imagined end joined to all
 * of them (Hopcroft and Tarjan, 1973); arcs count both ways.
 */
final class Between {
    private final MayNet net;
    private final List<List<Integer>> next = new ArrayList<>();
    private final int end;

    private Between(MayNet net) {
        this.net = net;
        this.end = net.nodes();
        for (int i = 0; i <= end; i++) {
            next.add(List.of());
        }
    }

    /**
     * {@return the nodes between a point and what may feed it}
     *
     * @param net the graph
     * @param held bars that end ways
     * @param point the point
     */
    static BitSet of(MayNet net, BitSet held, int point) {
        Between b = new Between(net);
        b.collect(held, point);
        return b.part(point);
    }

    private void join(int a, int b) {
        for (int[] pair : new int[][] {{a, b}, {b, a}}) {
            if (next.get(pair[0]).isEmpty()) {
                next.set(pair[0], new ArrayList<>(4));
            }
            next.get(pair[0]).add(pair[1]);
        }
    }

    private void collect(BitSet held, int point) {
        BitSet seen = new BitSet(end);
        List<Integer> queue = new ArrayList<>(List.of(point));
        seen.set(point);
        join(end, point);
        for (int i = 0; i < queue.size(); i++) {
            int node = queue.get(i);
            if (isEnd(node)) {
                join(end, node);
                if (node != point && node != net.world()) {
                    continue;
                }
            } else if (node < net.size() && held.get(node)) {
                continue;
            }
            net.forEachNext(node, u -> {
                join(node, u);
                if (!seen.get(u)) {
                    seen.set(u);
                    queue.add(u);
                }
            });
        }
    }

    private boolean isEnd(int node) {
        if (node >= net.size()) {
            return node == net.world();
        }
        return switch (net.kind(node)) {
            case POLE, MAIN_POLE, BUS, LUG, SOURCE_POLE -> true;
            default -> false;
        };
    }

    /** The biconnected part that holds the edge from the imagined end to the point, walked depth first without recursion. */
    private BitSet part(int point) {
        int n = end + 1;
        int[] found = new int[n];
        int[] low = new int[n];
        int[] parent = new int[n];
        int[] at = new int[n];
        Arrays.fill(parent, -1);
        List<Integer> order = new ArrayList<>();
        int clock = 0;
        found[end] = low[end] = ++clock;
        found[point] = low[point] = ++clock;
        parent[point] = end;
        int node = point;
        order.add(point);
        while (node != end) {
            if (at[node] < next.get(node).size()) {
                int u = next.get(node).get(at[node]++);
                if (found[u] == 0) {
                    found[u] = low[u] = ++clock;
                    parent[u] = node;
                    order.add(u);
                    node = u;
                } else if (u != parent[node]) {
                    low[node] = Math.min(low[node], found[u]);
                }
            } else {
                int p = parent[node];
                low[p] = Math.min(low[p], low[node]);
                node = p;
            }
        }
        BitSet in = new BitSet(end);
        in.set(point);
        // Parents come before their children in this order.
        for (int u : order) {
            if (u != point && in.get(parent[u]) && low[u] < found[parent[u]]) {
                in.set(u);
            }
        }
        return in;
    }
}
