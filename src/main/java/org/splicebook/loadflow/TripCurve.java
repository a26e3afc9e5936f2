package org.splicebook.loadflow;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a kind of protective unit answers to a current that stays, from {@code trip-curves.yaml}.
 *
 * @param title what people call the kind
 * @param source where the figures come from
 * @param overload its answer to amperes, as multiples of its rating; null when it does not look at them
 * @param residual its answer to a residual; null when it does not look at it
 */
public record TripCurve(
        String title,
        String source,
        @Nullable Overload overload,
        @Nullable Residual residual) {
    /**
     * Opening by heat, and at once by magnetism.
     *
     * @param earliest multiple of the rating and seconds, the quickest unit
     * @param latest the same for the slowest
     * @param magnetic the part that opens at once; null where there is none
     */
    public record Overload(
            List<Point> earliest,
            List<Point> latest,
            @Nullable Magnetic magnetic) {
        public Overload {
            earliest = List.copyOf(earliest);
            latest = List.copyOf(latest);
        }

        /** {@return when it opens at a multiple of its rating} */
        public TripTime at(double multiple) {
            Magnetic m = magnetic;
            if (m != null && multiple >= m.mustFrom()) {
                return new TripTime(0, m.within());
            }
            double latestSeconds = on(latest, multiple);
            double earliestSeconds = m != null && multiple > m.mayAbove() ? 0 : on(earliest, multiple);
            return new TripTime(Math.min(earliestSeconds, latestSeconds), latestSeconds);
        }
    }

    /** A point of a curve. */
    public record Point(double multiple, double seconds) {}

    /**
     * Opening at once.
     *
     * @param mayAbove above this multiple some units open at once
     * @param mustFrom from this multiple all do
     * @param within seconds that it takes them
     */
    public record Magnetic(double mayAbove, double mustFrom, double within) {}

    /**
     * Opening on a residual.
     *
     * @param holdsBelow amperes under which none opens
     * @param mustFrom amperes from which all open
     * @param oneSecondAt amperes at which the longest time is one second
     * @param exponent how fast the longest time falls with more amperes
     * @param notUnder seconds: no shorter longest time is asked for
     * @param quickest seconds that the quickest unit takes
     */
    public record Residual(
            double holdsBelow, double mustFrom, double oneSecondAt, double exponent, double notUnder, double quickest) {
        /** {@return when it opens at a residual in amperes} */
        public TripTime at(double amperes) {
            if (amperes < holdsBelow) {
                return TripTime.NEVER;
            }
            double latest = Math.max(notUnder, Math.pow(oneSecondAt / amperes, exponent));
            return new TripTime(quickest, amperes < mustFrom ? Double.POSITIVE_INFINITY : latest);
        }
    }

    /** Straight lines on logarithmic paper: never before the first point, as at the last one beyond it. */
    private static double on(List<Point> points, double multiple) {
        Point before = null;
        for (Point p : points) {
            if (multiple <= p.multiple()) {
                if (before == null) {
                    return multiple < p.multiple() ? Double.POSITIVE_INFINITY : p.seconds();
                }
                double way = Math.log(multiple / before.multiple()) / Math.log(p.multiple() / before.multiple());
                return before.seconds() * Math.pow(p.seconds() / before.seconds(), way);
            }
            before = p;
        }
        return before == null ? Double.POSITIVE_INFINITY : before.seconds();
    }
}
