package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand.Method;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;

/** What more a rating bears by one method, and what would make too much fit. Found by bisection, since methods are steps and tables. */
public final class WhatFits {
    /** The kinds that people ask for. */
    private static final List<Kind> KINDS = List.of(Kind.VEHICLE, Kind.HEAT_PUMP, Kind.RANGE);

    private static final double MOST = DemandTables.number("search", "most");
    private static final double CLOSE_VA = 0.01;

    private final Method method;
    private final Function<Dwelling, Optional<Demand>> demand;

    /**
     * @param demand the strictest reading of the method
     */
    WhatFits(Method method, Function<Dwelling, Optional<Demand>> demand) {
        this.method = method;
        this.demand = demand;
    }

    /**
     * The largest of a kind that fits beside what is there.
     *
     * @param kind which kind
     * @param method by which method
     * @param va its nameplate in volt-amperes; 0 where none fits
     * @param amps the same in whole amperes between the legs
     * @param isAtMost whether something is still asked, so that less may be the truth
     * @param isUnbounded whether the search ended at its own limit: more would fit too
     */
    public record Fit(Kind kind, Method method, double va, long amps, boolean isAtMost, boolean isUnbounded) {}

    /**
     * One change that makes it fit.
     *
     * @param method by which method
     * @param said what it is
     * @param amps the demand then; null where the change is to the rating
     * @param isShown whether nothing is still asked: else it may not be enough
     */
    public record Cure(Method method, String said, @Nullable Double amps, boolean isShown) {}

    /** {@return the largest charger, heat pump and range beside what is there; none without a rating, or where the method is not for it} */
    List<Fit> fits(Dwelling d) {
        if (d.rating() == null || demand.apply(d).filter(Demand::applies).isEmpty()) {
            return List.of();
        }
        return KINDS.stream().map(k -> fit(d, k)).toList();
    }

    private Fit fit(Dwelling d, Kind kind) {
        boolean isRange = kind == Kind.RANGE;
        double from = isRange ? DemandTables.number("search", "range-least") : 1;
        double to = isRange ? DemandTables.number("search", "range-most") : MOST;
        double va = largest(
                from,
                to,
                size -> d.with(new DemandLoad("?", kind, size, true, RecordedDwelling.isMotor(kind), false, null)));
        return new Fit(
                kind, method, va, (long) Math.floor(va / d.volts()), !d.asked().isEmpty(), va >= to);
    }

    /** The largest size between two that bears; 0 where not even the least does. */
    private double largest(double from, double to, DoubleFunction<Dwelling> made) {
        Predicate<Double> bears = size -> bears(made.apply(size));
        if (!bears.test(from)) {
            return 0;
        }
        if (bears.test(to)) {
            return to;
        }
        double low = from;
        double high = to;
        while (high - low > CLOSE_VA) {
            double middle = (low + high) / 2;
            if (bears.test(middle)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Whether it is not too much for certain. */
    private boolean bears(Dwelling d) {
        return demand.apply(d).filter(x -> x.verdict() != Verdict.TOO_MUCH).isPresent();
    }

    /** {@return what would make it fit, least work first; none where it is not too much} */
    List<Cure> cures(Dwelling d) {
        Optional<Demand> now = demand.apply(d);
        if (now.isEmpty() || now.get().verdict() != Verdict.TOO_MUCH) {
            return List.of();
        }
        List<Cure> cures = new ArrayList<>();
        chargers(cures, d, "");
        if (d.loads().stream().anyMatch(l -> l.isNew() && l.kind() == Kind.STRIP_HEAT)) {
            Dwelling bare = d.keep(l -> !l.isNew() || l.kind() != Kind.STRIP_HEAT);
            String said = "No strip heat beside the new heating (if the heat pump carries the house alone).";
            add(cures, said, bare);
            if (!bears(bare)) {
                chargers(cures, bare, said + " And: ");
            }
        }
        ServiceSize.of(now.get())
                .ifPresent(s -> cures.add(new Cure(
                        method,
                        "A service of " + s.rating() + " A.",
                        null,
                        d.asked().isEmpty())));
        return cures;
    }

    private void chargers(List<Cure> cures, Dwelling d, String before) {
        for (DemandLoad charger : d.of(Kind.VEHICLE)) {
            smaller(
                    cures,
                    d,
                    charger,
                    charger::heldTo,
                    before + "Hold " + charger.name() + " by an energy management system to ");
            if (charger.setPoint() == null) {
                smaller(cures, d, charger, charger::withVa, before + "A smaller " + charger.name() + ", of ");
            }
        }
    }

    private void smaller(
            List<Cure> cures, Dwelling d, DemandLoad charger, DoubleFunction<DemandLoad> made, String said) {
        double least = DemandTables.number("search", "charge-least") * d.volts();
        double most = Math.max(least, charger.isUnknown() ? MOST : charger.counted());
        DoubleFunction<Dwelling> with = va -> d.map(l -> l.name().equals(charger.name()) ? made.apply(va) : l);
        double amps = Math.floor(largest(least, most, with) / d.volts());
        if (amps > 0 && amps * d.volts() < most) {
            add(cures, said + Sheet.number(amps) + " A at most.", with.apply(amps * d.volts()));
        }
    }

    private void add(List<Cure> cures, String said, Dwelling changed) {
        demand.apply(changed)
                .filter(x -> x.verdict() != Verdict.TOO_MUCH)
                .ifPresent(x -> cures.add(
                        new Cure(method, said, x.amps(), changed.asked().isEmpty())));
    }
}
