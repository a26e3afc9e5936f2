package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.List;

/**
 * What one fact demands of the poles that feed one point, or two. A bit beyond the graph's things stands for a source that nobody listed.
 *
 * @param fact the fact
 * @param kind what it demands
 * @param points the point, with the lever positions it was read in where these matter; two for legs
 * @param poles the poles spoken of
 */
record Claim(Fact fact, Kind kind, List<String> points, BitSet poles) {
    enum Kind {
        /** One of these poles feeds it. */
        SOME,
        /** None of these feeds it. */
        NONE,
        /** All of these feed it. */
        ALL,
        /** Two points are one conductor. */
        SAME,
        /** Two points are on unlike legs. */
        UNLIKE_LEGS,
        /** Two points are on one leg. */
        ONE_LEG,
        /** What this fact says of the two points or the point and device is the opposite of what another says. */
        YES,
        NO
    }
}
