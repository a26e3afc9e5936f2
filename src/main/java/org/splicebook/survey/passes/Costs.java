package org.splicebook.survey.passes;

import java.util.BitSet;
import java.util.Collection;

/**
 * What a pass takes, in minutes; so chosen that a walk through some 90 points in ten rooms takes 12 minutes.
 *
 * @param pass to the panel and back, and looking after what was off
 * @param flip one breaker off and on again
 * @param room going to one room
 * @param point reading one point
 */
public record Costs(double pass, double flip, double room, double point) {
    /** One person on foot. */
    public static final Costs ON_FOOT = new Costs(1, 0.2, 0.3, 0.1);

    /**
     * {@return how many breakers are turned off and on again; one that is off in both passes is left off between them, one that is on again
     * or off anew is moved once}
     */
    static double flips(BitSet before, BitSet off) {
        BitSet moved = (BitSet) before.clone();
        moved.xor(off);
        return moved.cardinality() / 2.0;
    }

    /** {@return the minutes of a pass with so many breakers turned, through these points} */
    public double minutes(double flips, Collection<Point> walked) {
        return minutes(flips, (int) walked.stream().map(Point::place).distinct().count(), walked.size());
    }

    /** {@return the minutes of a pass with so many breakers turned, so many points in so many rooms} */
    double minutes(double flips, int rooms, int points) {
        return pass + flip * flips + room * rooms + point * points;
    }
}
