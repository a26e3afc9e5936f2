package org.splicebook.survey.passes;

/**
 * How likely it is, before any reading, that a point is not simply fed by one throw, and that a reading is wrong. Shares of 1. The odds are
 * of our own judgement; readings outweigh them soon.
 *
 * @param twice fed twice
 * @param either out with either of two
 * @param latched stays off once its power was cut
 * @param never fed by none of the throws
 * @param alwaysOut out whatever is on
 * @param wronglyOut a live point is read as out (its switch is off, a lamp is loose)
 * @param wronglyLit a point without power is read as lit
 */
public record Chances(
        double twice,
        double either,
        double latched,
        double never,
        double alwaysOut,
        double wronglyOut,
        double wronglyLit) {
    /** An older house, walked with care. */
    public static final Chances OLD_HOUSE = new Chances(0.01, 0.01, 0.02, 0.02, 0.02, 0.02, 0.02);

    /** Every point fed by one throw or by none, and every reading right. */
    public static final Chances PLAIN = new Chances(0, 0, 0, 0.01, 0, 0, 0);

    /** {@return the same with that share of readings wrong, either way} */
    public Chances withMisreads(double share) {
        return new Chances(twice, either, latched, never, alwaysOut, share, share);
    }

    /** {@return what is left for a single feed} */
    double once() {
        return 1 - twice - either - latched - never - alwaysOut;
    }
}
