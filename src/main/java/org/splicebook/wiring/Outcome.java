package org.splicebook.wiring;

import java.util.Arrays;

/** Counts, over trunk positions and the positions of independent parts, in how many cases nothing is reached. */
final class Outcome {
    private final double[] before;
    private final double[] after;
    private double cases = 1;

    Outcome(int trunk) {
        before = new double[trunk];
        after = new double[trunk];
        Arrays.fill(before, 1);
        Arrays.fill(after, 1);
    }

    void add(Part p, long[] b, long[] a) {
        for (int t = 0; t < before.length; t++) {
            int nothingBefore = 0;
            int nothingAfter = 0;
            for (int k = 0; k < p.positions; k++) {
                nothingBefore += b[t * p.positions + k] == 0 ? 1 : 0;
                nothingAfter += a[t * p.positions + k] == 0 ? 1 : 0;
            }
            before[t] *= nothingBefore;
            after[t] *= nothingAfter;
        }
        cases *= p.positions;
    }

    private double sum(double[] n) {
        double s = 0;
        for (double x : n) {
            s += x;
        }
        return s;
    }

    boolean lost() {
        double all = cases * before.length;
        return sum(before) < all && sum(after) == all;
    }

    boolean fewer() {
        return sum(after) > sum(before);
    }
}
