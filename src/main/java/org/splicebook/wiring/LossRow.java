package org.splicebook.wiring;

/**
 * What a load point loses with a thing, over all lever positions. A row exists only where something changes.
 *
 * @param loadPoint its id
 * @param hot what becomes of its hot
 * @param neutral what becomes of its neutral
 * @param ground what becomes of its ground
 * @param sureness MUST where it holds in every completion, MAY where in some
 */
public record LossRow(String loadPoint, Hot hot, Neutral neutral, Ground ground, Sureness sureness) {
    /** What becomes of the hot. Only LOST stands under what goes off. */
    public enum Hot {
        KEPT,
        /** Live in fewer lever positions than before. */
        IMPAIRED,
        /** One of its two or more hot terminals is lost in every position; still live through the load. */
        ONE_OF_TWO,
        /** Its own feed is lost, and yet a conductor of it is reached from a live pole through another load. */
        LOST_LIVE_THROUGH_LOAD,
        /** Live in no position. */
        LOST
    }

    /** What becomes of the neutral. Judged on load terminals that reached a neutral bar before. */
    public enum Neutral {
        KEPT,
        /** Reached in fewer lever positions. */
        IMPAIRED,
        /** No neutral bar is reached, a ground bar is. */
        OVER_GROUND,
        /** None is reached: if still live, it floats. */
        LOST
    }

    /** What becomes of the ground. */
    public enum Ground {
        KEPT,
        IMPAIRED,
        LOST
    }
}
