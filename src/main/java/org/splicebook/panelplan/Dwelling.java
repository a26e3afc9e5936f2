package org.splicebook.panelplan;

import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What a load calculation goes by.
 *
 * @param area floor area in square feet, by outside dimensions; null where it is not known
 * @param smallAppliance how many small-appliance circuits; null where it is not known (the least that the code counts is taken)
 * @param laundry how many laundry circuits; null as before
 * @param loads what is fixed in place
 * @param volts between the legs: 240, or 208 for a feeder of two legs of a wye
 * @param rating the rating of service or feeder in amperes; null where it is not known
 * @param asked what is not known and would change the outcome, as questions
 */
public record Dwelling(
        @Nullable Double area,
        @Nullable Integer smallAppliance,
        @Nullable Integer laundry,
        List<DemandLoad> loads,
        double volts,
        @Nullable Double rating,
        List<String> asked) {
    /** Volts between two legs of a 120/240 V system. */
    public static final double SPLIT_PHASE = 240;

    /** Volts between two legs of a 208Y/120 V system. */
    public static final double WYE = 208;

    public Dwelling {
        loads = List.copyOf(loads);
        asked = List.copyOf(asked);
    }

    /** {@return whether it is fed by two legs of a wye} */
    public boolean isWye() {
        return volts == WYE;
    }

    /** {@return the same dwelling with one load more} */
    public Dwelling with(DemandLoad load) {
        return new Dwelling(
                area,
                smallAppliance,
                laundry,
                Stream.concat(loads.stream(), Stream.of(load)).toList(),
                volts,
                rating,
                asked);
    }

    /** {@return the same dwelling with only some of its loads} */
    public Dwelling keep(Predicate<DemandLoad> which) {
        return new Dwelling(
                area, smallAppliance, laundry, loads.stream().filter(which).toList(), volts, rating, asked);
    }

    List<DemandLoad> of(DemandLoad.Kind kind) {
        return loads.stream().filter(l -> l.kind() == kind).toList();
    }

    double sum(DemandLoad.Kind... kinds) {
        List<DemandLoad.Kind> wanted = List.of(kinds);
        return loads.stream()
                .filter(l -> wanted.contains(l.kind()))
                .mapToDouble(DemandLoad::counted)
                .sum();
    }
}
