package org.splicebook.cli;

import java.util.Arrays;

/**
 * How long calls of one kind took, in milliseconds.
 *
 * @param count how many were measured
 * @param median half took no longer
 * @param p99 99 in 100 took no longer
 * @param least the fastest
 * @param most the slowest
 */
record Timings(int count, double median, double p99, double least, double most) {
    private static final double NANOS = 1_000_000.0;

    /** {@return the timings of calls, at least one, that took so many nanoseconds each} */
    static Timings of(long[] nanos) {
        long[] sorted = nanos.clone();
        Arrays.sort(sorted);
        return new Timings(
                sorted.length,
                rank(sorted, 0.5),
                rank(sorted, 0.99),
                sorted[0] / NANOS,
                sorted[sorted.length - 1] / NANOS);
    }

    /** The smallest measured value that this share of the calls did not exceed: no value is made up between two. */
    private static double rank(long[] sorted, double share) {
        return sorted[Math.max(0, (int) Math.ceil(share * sorted.length) - 1)] / NANOS;
    }
}
