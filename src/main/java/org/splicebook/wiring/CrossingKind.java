package org.splicebook.wiring;

/**
 * How a neutral is shared or goes astray.
 *
 * <p>A load point's current is a loop: from its pole over its feed, back over its return to the bar. Where in some cable or raceway
 * that encloses its wires the signed sum of that loop is not zero, for every choice of ways in some lever position in which it is
 * served, its feed and return part. Open wiring encloses nothing and is not judged so.
 */
public enum CrossingKind {
    /** Two or more poles on unlike legs, opened together, in one cable throughout. In order. */
    MULTIWIRE,
    /** The same without a common disconnect, or from two panels. */
    MULTIWIRE_WITHOUT_COMMON_DISCONNECT,
    /** Two or more poles of one leg on one neutral: it carries the sum and no breaker sees it. */
    SHARED_ON_ONE_LEG,
    /** Feed and return part, and the island carries (or its home run belongs to) another breaker's returns. */
    BORROWED,
    /** Feed and return part, though the island carries returns of this breaker only. */
    RETURN_IN_ANOTHER_CABLE,
    /** One island with two or more landings (home runs), carrying returns of unlike breakers: a loop. */
    ISLANDS_JOINED,
    /** A load point whose current passes a sensor on one conductor and not, or not always, on the others: it trips under load. */
    ACROSS_PROTECTION,
    /** Neutral and ground meet past the bonding point. */
    NEUTRAL_TO_GROUND
}
