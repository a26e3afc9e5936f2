package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
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
 * @param year the year of the work; null where it is not known
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
        @Nullable Integer year,
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

    /** {@return whether the further panel has two legs} */
    boolean hasTwoLegs() {
        return !isBackedUp() || twoLegs;
    }

    /** {@return poles of the breaker through which the source feeds in, beside the main and interlocked with it; 0 where it only makes room} */
    int sourcePoles() {
        return !isBackedUp() ? 0 : twoLegs ? 2 : 1;
    }

    /** {@return the spaces of that breaker: the topmost of the left column, beside the main} */
    List<String> sourceSpaces() {
        return List.of("1", "3").subList(0, sourcePoles());
    }

    /** {@return the spaces that circuits may take, in order} */
    List<Integer> rooms() {
        return IntStream.rangeClosed(1, spaces)
                .filter(s -> !sourceSpaces().contains(String.valueOf(s)))
                .boxed()
                .toList();
    }

    /** {@return how many of those are on a leg: 0 or 1} */
    long rooms(int leg) {
        return rooms().stream().filter(s -> leg(s) == leg).count();
    }

    /** {@return the leg of a space of a panel with two, from 0} */
    static int leg(int space) {
        return ((space + 1) / 2 - 1) % 2;
    }

    private static final double ONE_LEG = 120;
}
