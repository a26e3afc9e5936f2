package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Told;

/**
 * What people want of a further panel, to which circuits of one of today's move.
 *
 * @param of today's panel whose circuits may move
 * @param spaces spaces of the further panel
 * @param source what the alternate source gives for hours, in volt-amperes; null where the panel only makes room
 * @param surge what it gives for the seconds in which a motor starts, in volt-amperes; null where that is not known
 * @param twoLegs whether the source gives 120/240 V; else 120 V alone
 * @param feeder amperes of the feeder to it, where it only makes room
 * @param free spaces that are to become free in today's panel, the feeder's own breaker not counted, where it only makes room
 * @param want what is to stay on, the most wanted first: devices, what hangs on them, or breakers of today
 * @param never breakers of today that are to stay where they are
 * @param told what is said beside the record for the demand
 */
public record SubpanelWanted(
        String of,
        int spaces,
        @Nullable Double source,
        @Nullable Double surge,
        boolean twoLegs,
        double feeder,
        int free,
        List<String> want,
        Set<String> never,
        Told told) {
    public SubpanelWanted {
        want = List.copyOf(want);
        never = Set.copyOf(never);
    }

    /** {@return whether it is backed up by a source of its own} */
    public boolean isBackedUp() {
        return source != null;
    }

    /** {@return what it can bear for hours, in volt-amperes} */
    double bears() {
        return source != null ? source : feeder * 2 * ONE_LEG;
    }

    /** {@return what one leg can bear, in volt-amperes} */
    double legBears() {
        return source != null && !twoLegs ? source : bears() / 2;
    }

    private static final double ONE_LEG = 120;
}
