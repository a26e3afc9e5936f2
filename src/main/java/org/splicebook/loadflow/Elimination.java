package org.splicebook.loadflow;

import java.util.Arrays;

/**
 * The order in which the nodes of a circuit are eliminated, and what each elimination touches: the symbolic half of the solution,
 * worked out once for all values of the admittances.
 *
 * <p>Least degree first. The neighbours that a node has when its turn comes are its column; eliminating it turns its star into a mesh
 * among them. A house is nearly a tree, so columns hold one or two nodes and the whole costs little more than its nodes.
 */
final class Elimination {
    /** A node on which no more others hang is folded away before those that come last. */
    private static final int FOLDED = 2;

    /** Node by position. */
    final int[] order;
    /** Position by node. */
    final int[] position;
    /** Where the column of each position starts among the entries. */
    final int[] start;
    /** Positions of the neighbours, rising within a column. */
    final int[] row;
    /** For each position, where its mesh starts in {@link #mesh}. */
    final int[] meshStart;
    /** The entries that a node's elimination adds to: for rows p before q of its column, in that order. */
    final int[] mesh;

    /** Positions below it are of nodes that were not to come last. */
    final int first;

    private Elimination(int[] order, int[] position, int[] start, int[] row, int first) {
        this.first = first;
        this.order = order;
        this.position = position;
        this.start = start;
        this.row = row;
        int n = order.length;
        meshStart = new int[n + 1];
        for (int k = 0; k < n; k++) {
            int m = start[k + 1] - start[k];
            meshStart[k + 1] = Math.addExact(meshStart[k], m * (m - 1) / 2);
        }
        mesh = new int[meshStart[n]];
        int at = 0;
        for (int k = 0; k < n; k++) {
            for (int p = start[k]; p < start[k + 1]; p++) {
                for (int q = p + 1; q < start[k + 1]; q++) {
                    mesh[at++] = entry(row[p], row[q]);
                }
            }
        }
    }

    /** {@return the entry between two positions, the first eliminated first} */
    private int entry(int earlier, int later) {
        int e = Arrays.binarySearch(row, start[earlier], start[earlier + 1], later);
        if (e < 0) {
            throw new IllegalStateException("no entry between " + earlier + " and " + later);
        }
        return e;
    }

    /** {@return the entry between two nodes that a branch joins} */
    int between(int nodeA, int nodeB) {
        int a = position[nodeA];
        int b = position[nodeB];
        return a < b ? entry(a, b) : entry(b, a);
    }

    /** {@return the elimination of a circuit of so many nodes, whose branches join {@code from[i]} and {@code to[i]}} */
    static Elimination of(int nodes, int[] from, int[] to) {
        return of(nodes, from, to, new boolean[nodes]);
    }

    /**
     * {@return the elimination of a circuit, some nodes last: before them go those that two others or fewer hang on, which adds nothing
     * to what is left}
     */
    static Elimination of(int nodes, int[] from, int[] to, boolean[] last) {
        Neighbours graph = new Neighbours(nodes, from, to, last);
        int[] order = new int[nodes];
        int[] position = new int[nodes];
        int[][] columns = new int[nodes][];
        int first = 0;
        boolean isFolding = true;
        for (int k = 0; k < nodes; k++) {
            int v = graph.takeLeast(isFolding ? FOLDED : nodes);
            if (v < 0) {
                isFolding = false;
                graph.release();
                v = graph.takeLeast(nodes);
            }
            order[k] = v;
            position[v] = k;
            columns[k] = graph.eliminate(v);
            first += isFolding ? 1 : 0;
        }
        int[] start = new int[nodes + 1];
        for (int k = 0; k < nodes; k++) {
            start[k + 1] = start[k] + columns[k].length;
        }
        int[] row = new int[start[nodes]];
        for (int k = 0; k < nodes; k++) {
            int at = start[k];
            for (int u : columns[k]) {
                row[at++] = position[u];
            }
            Arrays.sort(row, start[k], start[k + 1]);
        }
        return new Elimination(order, position, start, row, first);
    }
}
