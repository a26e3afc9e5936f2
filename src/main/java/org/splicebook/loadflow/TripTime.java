package org.splicebook.loadflow;

/**
 * When a protective unit opens if the current stays: a band, since units of one kind differ.
 *
 * @param earliest seconds before which none opens; infinite: none ever opens
 * @param latest seconds by which every one has opened; infinite: some never open
 */
public record TripTime(double earliest, double latest) {
    /** It holds. */
    public static final TripTime NEVER = new TripTime(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

    public TripTime {
        if (!(earliest >= 0 && latest >= earliest)) {
            throw new IllegalArgumentException("from " + earliest + " s to " + latest + " s");
        }
    }

    /** {@return whether some unit of the kind opens} */
    public boolean may() {
        return earliest < Double.POSITIVE_INFINITY;
    }

    /** {@return whether every unit of the kind opens} */
    public boolean must() {
        return latest < Double.POSITIVE_INFINITY;
    }
}
