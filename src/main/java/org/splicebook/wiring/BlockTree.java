package org.splicebook.wiring;

import java.util.Arrays;
import java.util.BitSet;
import org.jspecify.annotations.Nullable;

/**
 * The biconnected parts of what roots reach, buses and bars cut out: a depth-first walk from one imagined root joined to all real
 * ones (Hopcroft and Tarjan, 1973). A vertex that every way from the roots to a target passes is a head of a block on the target's
 * line of blocks; a vertex on some simple way lies in one of those blocks. Linear in the part walked; reused without clearing.
 */
final class BlockTree {
    private static final int ROOT = -1;

    private final Net net;
    /** What a walk writes on while it goes; trees that are built one after the other share it. */
    static final class Slate {
        private final int[] disc;
        private final int[] low;
        private final int[] next;
        private final int[] stack;
        private final int[] path;
        private final boolean[] isRoot;

        Slate(Net net) {
            int n = net.size;
            disc = new int[n];
            low = new int[n];
            next = new int[n];
            stack = new int[n];
            path = new int[n];
            isRoot = new boolean[n];
        }
    }

    private final int[] seen;
    private final int[] disc;
    private final int[] low;
    private final int[] parent;
    private final int[] next;
    private final int[] part;
    private final int[] block;
    private final int[] stack;
    private final int[] path;
    private int[] head;
    private int[] blockSize;
    private int blocks;
    /** Whether some block has three vertices or more: without one only one way leads anywhere. */
    private boolean anyLarge;

    private int stamp;
    private int parts;
    private int clock;
    private final boolean[] isRoot;

    BlockTree(Net net) {
        this(net, new Slate(net));
    }

    BlockTree(Net net, Slate slate) {
        this.net = net;
        int n = net.size;
        seen = new int[n];
        parent = new int[n];
        part = new int[n];
        block = new int[n];
        head = new int[64];
        blockSize = new int[64];
        disc = slate.disc;
        low = slate.low;
        next = slate.next;
        stack = slate.stack;
        path = slate.path;
        isRoot = slate.isRoot;
    }

    /** Walks from the roots. */
    void build(int[] roots, LeverState state) {
        stamp++;
        blocks = 0;
        anyLarge = false;
        parts = 0;
        clock = 0;
        for (int r : roots) {
            isRoot[r] = true;
        }
        for (int r : roots) {
            if (seen[r] != stamp && state.conducts(r)) {
                walk(r, state);
                parts++;
            }
        }
        for (int r : roots) {
            isRoot[r] = false;
        }
    }

    private void walk(int root, LeverState state) {
        // All in reach of the loop: it is the most frequent of the whole derivation.
        int[] end = net.start;
        int[] adjacent = net.adjacent;
        boolean[] cut = net.cut;
        int top = 0;
        int depth = 0;
        enter(root, ROOT);
        stack[top++] = root;
        path[depth++] = root;
        while (depth > 0) {
            int v = path[depth - 1];
            if (next[v] < end[v + 1]) {
                int u = adjacent[next[v]++];
                if (cut[u] || u == parent[v]) {
                    continue;
                }
                if (seen[u] == stamp) {
                    low[v] = Math.min(low[v], disc[u]);
                } else if (state.conducts(u)) {
                    enter(u, v);
                    stack[top++] = u;
                    path[depth++] = u;
                }
                continue;
            }
            depth--;
            int p = parent[v];
            if (p == ROOT || low[v] >= disc[p]) {
                top = close(v, p, top);
            } else {
                low[p] = Math.min(low[p], low[v]);
            }
        }
    }

    private void enter(int v, int from) {
        seen[v] = stamp;
        disc[v] = ++clock;
        low[v] = isRoot[v] && from != ROOT ? 0 : clock;
        parent[v] = from;
        next[v] = net.start[v];
        part[v] = parts;
    }

    private int close(int v, int p, int top) {
        int t = top;
        if (blocks == head.length) {
            head = Arrays.copyOf(head, blocks * 2);
            blockSize = Arrays.copyOf(blockSize, blocks * 2);
        }
        int size = 1;
        int u;
        do {
            u = stack[--t];
            block[u] = blocks;
            size++;
        } while (u != v);
        head[blocks] = p;
        blockSize[blocks] = size;
        anyLarge |= size > 2;
        blocks++;
        return t;
    }

    /** {@return whether the roots reach it} */
    boolean reaches(int v) {
        return seen[v] == stamp;
    }

    /** {@return the number of the connected part it is in} */
    int part(int v) {
        return part[v];
    }

    /** {@return every vertex that all ways from the roots to the target pass, the target first} */
    int[] dominators(int target) {
        int n = 0;
        for (int v = target; v != ROOT; v = head[block[v]]) {
            path[n++] = v;
        }
        return Arrays.copyOf(path, n);
    }

    /** {@return whether two ways at once lead from one root to the target: a block of three vertices or more lies between} */
    boolean hasRing(int target) {
        for (int v = anyLarge ? target : ROOT; v != ROOT; v = head[block[v]]) {
            if (blockSize[block[v]] > 2 && head[block[v]] != ROOT) {
                return true;
            }
        }
        return false;
    }

    /** {@return whether it is in one block with the imagined root: on a simple way between two roots} */
    boolean isBesideRoots(int v) {
        return head[block[v]] == ROOT && blockSize[block[v]] > 2;
    }

    /** {@return the neighbour by which a vertex was first come to from the roots, or -1 for a root} */
    int cameFrom(int v) {
        return parent[v];
    }

    /** {@return whether only one way leads to the target, from one root: then what is on it is all that matters} */
    boolean isOnlyWay(int target) {
        for (int v = anyLarge ? target : ROOT; v != ROOT; v = head[block[v]]) {
            if (blockSize[block[v]] > 2) {
                return false;
            }
        }
        return true;
    }

    /** {@return whether some simple way from the roots to the target passes v} */
    boolean onSomeWay(int v, int target) {
        if (seen[v] != stamp || seen[target] != stamp || part[v] != part[target]) {
            return false;
        }
        int b = block[v];
        int u = target;
        while (u != ROOT) {
            if (block[u] == b) {
                return true;
            }
            u = head[block[u]];
        }
        return false;
    }

    /** Adds what is in the blocks from the target up to the roots. */
    void addOnLine(int target, @Nullable BitSet[] byBlock, BitSet to) {
        for (int u = target; u != ROOT; u = head[block[u]]) {
            BitSet here = byBlock[block[u]];
            if (here != null) {
                to.or(here);
            }
        }
    }

    int blockOf(int v) {
        return block[v];
    }

    /** {@return how many blocks there are} */
    int blocks() {
        return blocks;
    }
}
