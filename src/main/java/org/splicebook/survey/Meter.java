package org.splicebook.survey;

/**
 * How likely a meter shows what was read, where so many volts are foretold. Within what meters and loads taken for known are off by it is as
 * foretold; beyond, it falls off as a bell curve of that width; what is left is a slip of the hand or of the pen. So one reading that only a
 * rare fault foretells outweighs that it is rare, and none rules anything out.
 */
final class Meter {
    private static final double AS_FORETOLD = 0.9;
    /** A wrong slot, a wrong range, a digit lost. */
    private static final double SLIP = 0.001;
    /** What floats shows anything up to ghosts on a meter of high impedance. */
    private static final double GHOST = 0.5;

    private static final double MORE_THAN_A_GHOST = 0.002;
    /** What is reckoned to be held at nothing by a load may float where that load is not there. */
    private static final double GHOST_AT_NOTHING = 0.05;

    private Meter() {}

    /**
     * {@return the chance, of which 0.9 is as foretold}
     *
     * @param told the volts foretold; not a number where it floats
     * @param read what was read
     */
    static double chance(double told, double read) {
        if (Double.isNaN(told)) {
            return read <= Seen.MOST_GHOST ? GHOST : MORE_THAN_A_GHOST;
        }
        double within = within(told);
        double beyond = Math.max(0, Math.abs(told - read) - within) / within;
        double least = told < within && read <= Seen.MOST_GHOST ? GHOST_AT_NOTHING : SLIP;
        return Math.max(least, AS_FORETOLD * Math.exp(-beyond * beyond / 2));
    }

    /**
     * {@return the chance of a reading at a neutral that lost its way home beside a hot that lives: any load that is on, known or not, lifts it
     * towards the hot}
     */
    static double onLostNeutral(double hotGround, double read) {
        return read <= hotGround + within(hotGround) ? GHOST : MORE_THAN_A_GHOST;
    }

    /** {@return the same where anything between two voltages is foretold, each as likely as any other} */
    static double chance(double told, double sound, double read) {
        double at = chance(told, read);
        if (Double.isNaN(told) || Double.isNaN(sound)) {
            return at;
        }
        boolean isBetween = Math.min(told, sound) <= read && read <= Math.max(told, sound);
        double within = 2 * within(told);
        return isBetween ? Math.max(at, AS_FORETOLD * within / (within + Math.abs(told - sound))) : at;
    }

    private static double within(double told) {
        return Seen.NOTICED_VOLTS + Seen.NOTICED_SHARE * told;
    }
}
