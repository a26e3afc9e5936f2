package org.splicebook.survey.passes;

import java.util.BitSet;
import java.util.List;

/**
 * What may take a point out: a hypothesis.
 *
 * @param kind how
 * @param a a throw by index, or -1
 * @param b a second one, or -1
 */
public record Cause(Kind kind, int a, int b) {
    /** How a point may answer to the throws. */
    public enum Kind {
        /** Out with one throw, or with what feeds it. */
        ONCE,
        /** Fed from two at once: out only with both. */
        TWICE,
        /** Across two that move apart, or fed by one through a panel that the other feeds: out with either. */
        EITHER,
        /** Behind a protective device or a control that stays off once its power was cut: out with the throw and in every pass after. */
        LATCHED,
        /** None of these takes it out: another source, or a breaker nobody listed. */
        NEVER,
        /** Out whatever is on: a switch off, a timer, a tripped device, a dead lamp. */
        ALWAYS_OUT
    }

    static Cause once(int a) {
        return new Cause(Kind.ONCE, a, -1);
    }

    /**
     * {@return whether the point is out}
     *
     * @param off the throws without power in this pass, those below one that is off among them
     * @param everOff the same of this and all earlier passes together
     */
    public boolean isOut(BitSet off, BitSet everOff) {
        return switch (kind) {
            case ONCE -> off.get(a);
            case TWICE -> off.get(a) && off.get(b);
            case EITHER -> off.get(a) || off.get(b);
            case LATCHED -> everOff.get(a);
            case NEVER -> false;
            case ALWAYS_OUT -> true;
        };
    }

    /** {@return in words} */
    public String said(List<Throw> all) {
        return switch (kind) {
            case ONCE -> all.get(a).name();
            case TWICE -> all.get(a).name() + " and " + all.get(b).name() + " at once (fed twice)";
            case EITHER -> "out with " + all.get(a).name() + " or " + all.get(b).name() + " alone";
            case LATCHED -> all.get(a).name() + ", behind something that stays off once its power was cut";
            case NEVER -> "none of these breakers: another source";
            case ALWAYS_OUT -> "out whatever is on: a switch, a timer, a tripped device, a dead lamp";
        };
    }

    /** {@return whether one throw alone feeds the point, latched or not} */
    public boolean isOneThrow() {
        return kind == Kind.ONCE || kind == Kind.LATCHED;
    }

    /** {@return whether both say the same of which breakers feed the point; a latch does not change that} */
    public boolean feedsAlike(Cause other) {
        return isOneThrow() ? other.isOneThrow() && a == other.a : equals(other);
    }
}
