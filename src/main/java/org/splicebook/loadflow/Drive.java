package org.splicebook.loadflow;

/**
 * What drives a protective unit to open, in one state of the house.
 *
 * @param unit what opens: a breaker ({@code main.2+4}), a main ({@code main}), a device ({@code gf-1})
 * @param cause what it answers to
 * @param at the pole or sensor that sees the current, for example {@code main.2}
 * @param amperes through the pole, or the residual
 * @param limit the rating in amperes; for a residual, what it must open at
 * @param time when it opens if the current stays
 */
public record Drive(String unit, Cause cause, String at, double amperes, double limit, TripTime time) {
    /** What a protective unit answers to. */
    public enum Cause {
        OVERLOAD,
        RESIDUAL
    }
}
