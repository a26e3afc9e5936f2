package org.splicebook.survey.passes;

/**
 * What a test without any breaker off shows of two points together.
 *
 * @param a a point by index
 * @param b another
 * @param kind what they have in common
 */
public record Tie(int a, int b, Kind kind) {
    /** What two points have in common. */
    public enum Kind {
        /** A meter from hot to hot shows next to nothing. */
        SAME_LEG,
        /** It shows the volts between two legs. */
        OTHER_LEG,
        /** One test button takes both out: both hang on the breaker behind it. */
        SAME_BREAKER
    }
}
