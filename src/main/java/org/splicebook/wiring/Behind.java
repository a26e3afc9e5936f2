package org.splicebook.wiring;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/** Which load points are behind each vertex: those one of whose ways must pass it. */
final class Behind {
    private static final int[][] NO_LINES = {};

    /** What is told of one kept line of dominators. */
    interface Line {
        void of(int loadPoint, int[] line);
    }

    private final Reach reach;
    /** By vertex, from {@code start[v]} on: load points in order. */
    private final int[] start;

    private final int[] loadPoints;
    /**
     * By vertex: a sum of random numbers, one for each kept line of dominators that it is on. Vertices in a row along a run are on the same
     * lines, so their losses have the same effect; that unlike sets have the same sum of 64 bits does not happen.
     */
    private final long[] signature;

    Behind(Reach reach) {
        this.reach = reach;
        int size = reach.net.size;
        start = new int[size + 1];
        signature = new long[size];
        int[] last = new int[size];
        lines((lp, line) -> {
            for (int v : line) {
                if (last[v] != lp + 1) {
                    last[v] = lp + 1;
                    start[v + 1]++;
                }
            }
        });
        for (int v = 0; v < size; v++) {
            start[v + 1] += start[v];
        }
        loadPoints = new int[start[size]];
        int[] at = Arrays.copyOf(start, size);
        SplittableRandom numbers = new SplittableRandom(1958);
        lines((lp, line) -> {
            long number = numbers.nextLong();
            for (int v : line) {
                signature[v] += number;
                if (at[v] == start[v] || loadPoints[at[v] - 1] != lp) {
                    loadPoints[at[v]++] = lp;
                }
            }
        });
        Line sign = (lp, line) -> {
            long number = numbers.nextLong();
            for (int v : line) {
                signature[v] += number;
            }
        };
        reach.partsOfLoadPoint.forEach(parts -> parts.forEach(p -> lines(p, p.overGroundBy, sign)));
    }

    /** Tells all lines but those over ground of load terminals, load point by load point. */
    private void lines(Line told) {
        for (List<Part> parts : reach.partsOfLoadPoint) {
            for (Part p : parts) {
                lines(p, p.hotBy, told);
                lines(p, p.neutralBy, told);
                lines(p, p.groundBy, told);
            }
        }
    }

    /** Tells the lines of a part, case by case and terminal by terminal; what is kept once for several cases is told once. */
    static void lines(Part p, int[][][] by, Line told) {
        for (int c = 0; c < by.length; c++) {
            int[][] terminals = by[c] == null || (c >= p.positions && by[c] == by[c - p.positions]) ? NO_LINES : by[c];
            for (int[] line : terminals) {
                if (line != null) {
                    told.of(p.loadPoint, line);
                }
            }
        }
    }

    boolean isNone(int vertex) {
        return start[vertex] == start[vertex + 1];
    }

    /** {@return the load points behind a vertex, in order} */
    int[] of(int vertex) {
        return Arrays.copyOfRange(loadPoints, start[vertex], start[vertex + 1]);
    }

    long signature(int vertex) {
        return signature[vertex];
    }
}
