package org.splicebook.loadflow;

import java.util.Arrays;

/** The graph of what is left while nodes are eliminated, least degree first. */
final class Neighbours {
    private final int[][] of;
    private final int[] degree;
    private final boolean[] gone;
    private final int[] mark;
    private int round;

    // Nodes by degree, in doubly linked lists.
    private final int[] head;
    private final int[] next;
    private final int[] previous;
    private int least;

    /** Nodes whose turn is not yet: they stand in no list. */
    private final boolean[] held;

    /**
     * @param last nodes that are held back until {@link #release}
     */
    Neighbours(int nodes, int[] from, int[] to, boolean[] last) {
        held = last.clone();
        of = new int[nodes][];
        degree = new int[nodes];
        gone = new boolean[nodes];
        mark = new int[nodes];
        head = new int[nodes + 1];
        next = new int[nodes];
        previous = new int[nodes];
        int[] count = new int[nodes];
        for (int i = 0; i < from.length; i++) {
            count[from[i]]++;
            count[to[i]]++;
        }
        Arrays.setAll(of, v -> new int[count[v]]);
        for (int i = 0; i < from.length; i++) {
            if (from[i] != to[i]) {
                of[from[i]][degree[from[i]]++] = to[i];
                of[to[i]][degree[to[i]]++] = from[i];
            }
        }
        Arrays.fill(head, -1);
        for (int v = 0; v < nodes; v++) {
            compact(v);
            link(v);
        }
    }

    /** Leaves out who is gone or stands twice. */
    private void compact(int v) {
        round++;
        mark[v] = round;
        int kept = 0;
        for (int i = 0; i < degree[v]; i++) {
            int u = of[v][i];
            if (!gone[u] && mark[u] != round) {
                mark[u] = round;
                of[v][kept++] = u;
            }
        }
        degree[v] = kept;
    }

    private void link(int v) {
        if (held[v]) {
            return;
        }
        int d = degree[v];
        previous[v] = -1;
        next[v] = head[d];
        if (head[d] >= 0) {
            previous[head[d]] = v;
        }
        head[d] = v;
        least = Math.min(least, d);
    }

    private void unlink(int v) {
        if (held[v]) {
            return;
        }
        if (previous[v] < 0) {
            head[degree[v]] = next[v];
        } else {
            next[previous[v]] = next[v];
        }
        if (next[v] >= 0) {
            previous[next[v]] = previous[v];
        }
    }

    /** {@return a node of least degree that is not held back; -1 where none has so low a degree} */
    int takeLeast(int most) {
        while (least < head.length && head[least] < 0) {
            least++;
        }
        return least <= most && least < head.length ? head[least] : -1;
    }

    /** Lets those that are held back take their turn. */
    void release() {
        for (int v = 0; v < held.length; v++) {
            if (held[v]) {
                held[v] = false;
                link(v);
            }
        }
    }

    /** {@return its neighbours, which are joined to one another in its place} */
    int[] eliminate(int v) {
        unlink(v);
        gone[v] = true;
        int[] around = Arrays.copyOf(of[v], degree[v]);
        of[v] = around;
        for (int u : around) {
            unlink(u);
            int[] old = of[u];
            int kept = 0;
            round++;
            mark[u] = round;
            for (int i = 0; i < degree[u]; i++) {
                if (!gone[old[i]]) {
                    mark[old[i]] = round;
                    old[kept++] = old[i];
                }
            }
            for (int w : around) {
                if (mark[w] != round) {
                    if (kept == old.length) {
                        old = Arrays.copyOf(old, Math.max(4, kept * 2));
                    }
                    old[kept++] = w;
                }
            }
            of[u] = old;
            degree[u] = kept;
            link(u);
        }
        return around;
    }
}
