package org.splicebook.panelplan;

import java.util.List;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
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
 * @param open whether it may hold fixed loads that are not among these
 * @param assumed what was taken to be so, for people to look at
 */
public record Dwelling(
        @Nullable Double area,
        @Nullable Integer smallAppliance,
        @Nullable Integer laundry,
        List<DemandLoad> loads,
        double volts,
        @Nullable Double rating,
        List<String> asked,
        boolean open,
        List<String> assumed) {
    /** Volts between two legs of a 120/240 V system. */
    public static final double SPLIT_PHASE = 240;

    /** Volts between two legs of a 208Y/120 V system. */
    public static final double WYE = 208;

    public Dwelling {
        loads = List.copyOf(loads);
        asked = List.copyOf(asked);
        assumed = List.copyOf(assumed);
    }

    /** A dwelling all of whose fixed loads are among these. */
    public Dwelling(
            @Nullable Double area,
            @Nullable Integer smallAppliance,
            @Nullable Integer laundry,
            List<DemandLoad> loads,
            double volts,
            @Nullable Double rating,
            List<String> asked) {
        this(area, smallAppliance, laundry, loads, volts, rating, asked, false, List.of());
    }

    /** {@return whether it is fed by two legs of a wye} */
    public boolean isWye() {
        return volts == WYE;
    }

    /** {@return the same dwelling with one load more} */
    public Dwelling with(DemandLoad load) {
        return withLoads(Stream.concat(loads.stream(), Stream.of(load)).toList());
    }

    /** {@return the same dwelling with only some of its loads} */
    public Dwelling keep(Predicate<DemandLoad> which) {
        return withLoads(loads.stream().filter(which).toList());
    }

    /** {@return the same dwelling with each load put in another's place} */
    public Dwelling map(UnaryOperator<DemandLoad> each) {
        return withLoads(loads.stream().map(each).toList());
    }

    private Dwelling withLoads(List<DemandLoad> others) {
        return new Dwelling(area, smallAppliance, laundry, others, volts, rating, asked, open, assumed);
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
