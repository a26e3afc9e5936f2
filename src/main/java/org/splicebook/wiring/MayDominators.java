package org.splicebook.wiring;

import java.util.Arrays;
import java.util.BitSet;

/**
 * What may be reached from roots over a {@link MayGraph}, and what every such way passes: immediate dominators by iteration over the
 * reverse postorder (Cooper, Harvey and Kennedy, 2001). The world counts as a root too: something nobody listed may feed it.
 */
final class MayDominators {
    private final MayGraph graph;
    private final int[] order;
    private final int[] number;
    private final int[] idom;
    /** By node: its number in the dominator tree, and how many are under it, itself among them. */
    private final int[] first;

    private final int[] under;
    private int count;

    MayDominators(MayGraph graph, int[] roots) {
        this.graph = graph;
        int root = graph.nodes;
        order = new int[graph.nodes + 1];
        number = new int[graph.nodes + 1];
        idom = new int[graph.nodes + 1];
        first = new int[graph.nodes + 1];
        under = new int[graph.nodes + 1];
        Arrays.fill(number, -1);
        Arrays.fill(idom, -1);
        int[][] next = new int[graph.nodes + 1][];
        int[] all = Arrays.copyOf(roots, roots.length + 1);
        all[roots.length] = graph.world;
        next[root] = all;
        postorder(root, next);
        solve(root, next);
        numberTree(root);
    }

    private int[] next(int node, int[][] next) {
        if (next[node] == null) {
            int[] found = new int[8];
            int[] n = {0};
            int[][] box = {found};
            graph.forEachNext(node, u -> {
                if (n[0] == box[0].length) {
                    box[0] = Arrays.copyOf(box[0], n[0] * 2);
                }
                box[0][n[0]++] = u;
            });
            next[node] = Arrays.copyOf(box[0], n[0]);
        }
        return next[node];
    }

    private void postorder(int root, int[][] next) {
        int[] stack = new int[graph.nodes + 1];
        int[] at = new int[graph.nodes + 1];
        BitSet seen = new BitSet();
        int depth = 0;
        stack[depth++] = root;
        seen.set(root);
        while (depth > 0) {
            int v = stack[depth - 1];
            int[] ns = next(v, next);
            if (at[v] < ns.length) {
                int u = ns[at[v]++];
                if (!seen.get(u)) {
                    seen.set(u);
                    stack[depth++] = u;
                }
            } else {
                depth--;
                number[v] = count;
                order[count++] = v;
            }
        }
    }

    private void solve(int root, int[][] next) {
        int[] heads = new int[count + 1];
        for (int i = 0; i < count; i++) {
            for (int u : next(order[i], next)) {
                heads[number[u] + 1]++;
            }
        }
        for (int i = 0; i < count; i++) {
            heads[i + 1] += heads[i];
        }
        int[] fill = Arrays.copyOf(heads, count);
        int[] before = new int[heads[count]];
        for (int i = 0; i < count; i++) {
            for (int u : next(order[i], next)) {
                before[fill[number[u]]++] = order[i];
            }
        }
        idom[root] = root;
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int i = count - 2; i >= 0; i--) {
                int v = order[i];
                int best = -1;
                for (int k = heads[i]; k < heads[i + 1]; k++) {
                    if (idom[before[k]] >= 0) {
                        best = best < 0 ? before[k] : meet(before[k], best);
                    }
                }
                if (idom[v] != best) {
                    idom[v] = best;
                    changed = true;
                }
            }
        }
    }

    private int meet(int a, int b) {
        int x = a;
        int y = b;
        while (x != y) {
            while (number[x] < number[y]) {
                x = idom[x];
            }
            while (number[y] < number[x]) {
                y = idom[y];
            }
        }
        return x;
    }

    /** {@return whether some way may lead to the vertex} */
    boolean reaches(int vertex) {
        int arrived = graph.arrivalNode(vertex);
        return number[vertex] >= 0 || (arrived >= 0 && number[arrived] >= 0);
    }

    /** {@return whether every way to the vertex passes one of the given: where it may be come to in two manners, in both} */
    boolean passes(int vertex, int[] given) {
        int arrived = graph.arrivalNode(vertex);
        return (number[vertex] < 0 || chainMeets(vertex, given))
                && (arrived < 0 || number[arrived] < 0 || chainMeets(arrived, given));
    }

    private boolean chainMeets(int node, int[] given) {
        for (int g : given) {
            if (number[g] >= 0 && first[g] <= first[node] && first[node] < first[g] + under[g]) {
                return true;
            }
        }
        return false;
    }

    /** Numbers the dominator tree so that what is under a node is one run of numbers. */
    private void numberTree(int root) {
        Arrays.fill(under, 1);
        for (int i = 0; i < count - 1; i++) {
            under[idom[order[i]]] += under[order[i]];
        }
        int[] next = new int[first.length];
        next[root] = 1;
        for (int i = count - 2; i >= 0; i--) {
            int v = order[i];
            first[v] = next[idom[v]];
            next[idom[v]] += under[v];
            next[v] = first[v] + 1;
        }
    }
}
