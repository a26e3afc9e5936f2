package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand.Method;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;

/**
 * One dwelling by every method and edition wanted, what would still fit, and what would make it fit.
 *
 * @param dwelling what was counted
 * @param edition the edition by which what fits is told
 * @param demands by method, then reading, then edition
 * @param fits the largest that fits, by kind and method
 * @param cures what would make it fit, least work first, by method; none where it fits
 * @param metering what a meter showed; null where nothing is known of it
 */
public record DemandStudy(
        Dwelling dwelling,
        int edition,
        List<Demand> demands,
        List<WhatFits.Fit> fits,
        List<WhatFits.Cure> cures,
        @Nullable Metering metering) {
    /**
     * What is wanted.
     *
     * @param methods which methods
     * @param editions which editions to calculate by
     * @param edition by which of them what fits is told
     * @param metering what a meter showed; null where nothing is known of it
     * @param units how many dwellings alike in a building; 0 where it is about one
     */
    public record Wanted(
            List<Method> methods,
            List<Integer> editions,
            int edition,
            @Nullable Metering metering,
            int units) {
        public Wanted {
            methods = List.copyOf(methods);
            editions = List.copyOf(editions);
        }

        /**
         * {@return what is wanted, read from words, or all that is wrong with them}
         *
         * @param method a method's word; null for all that can be told
         * @param edition a year; null for all, what fits then being told by the house's own
         */
        public static Result<Wanted> read(
                House house,
                @Nullable String method,
                @Nullable Integer edition,
                @Nullable Metering metering,
                int units) {
            List<Problem> problems = new ArrayList<>();
            List<Method> methods = Arrays.stream(Method.values())
                    .filter(m -> method == null || m.word().equals(method))
                    .toList();
            if (methods.isEmpty()) {
                bad(
                        problems,
                        "method",
                        "There is no method '" + method + "'.",
                        "There are "
                                + String.join(
                                        ", ",
                                        Arrays.stream(Method.values())
                                                .map(Method::word)
                                                .toList())
                                + ".");
            }
            if (edition != null && !Demands.editions().contains(edition)) {
                bad(
                        problems,
                        "edition",
                        "Edition " + edition + " is not known here.",
                        "There are " + Demands.editions() + ".");
            }
            if (units < 0 || units > MOST_UNITS) {
                bad(problems, "units", units + " is no number of dwellings.", "From 1 to " + MOST_UNITS + ".");
            }
            if (methods.equals(List.of(Method.METERED)) && metering == null) {
                bad(problems, "peak", "The metered method needs the greatest recorded demand.", "Say peak, as 8.4 kW.");
            }
            if (methods.equals(List.of(Method.UNITS)) && units == 0) {
                bad(problems, "units", "This method needs the number of dwellings.", "Say units.");
            }
            int by = edition == null ? Demands.edition(house) : edition;
            return problems.isEmpty()
                    ? Result.ok(new Wanted(
                            methods, edition == null ? Demands.editions() : List.of(edition), by, metering, units))
                    : new Result.Failed<>(problems);
        }

        private static void bad(List<Problem> problems, String field, String found, String cure) {
            problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
        }
    }

    private static final int MOST_UNITS = 10_000;

    public DemandStudy {
        demands = List.copyOf(demands);
        fits = List.copyOf(fits);
        cures = List.copyOf(cures);
    }

    /** {@return the study} */
    public static DemandStudy of(Dwelling dwelling, Wanted wanted) {
        List<Demand> all = new ArrayList<>();
        List<WhatFits.Fit> fits = new ArrayList<>();
        List<WhatFits.Cure> cures = new ArrayList<>();
        for (Method method : wanted.methods()) {
            List<Demand> made = new ArrayList<>();
            wanted.editions().forEach(e -> made.addAll(demands(method, dwelling, e, wanted)));
            // A stable sort: readings stay together, editions in order.
            List<String> readings =
                    made.stream().map(Demand::reading).distinct().toList();
            made.sort(Comparator.comparing(d -> readings.indexOf(d.reading())));
            all.addAll(made);
            if (method != Method.UNITS && !made.isEmpty()) {
                WhatFits what = new WhatFits(method, d -> strictest(method, d, wanted));
                fits.addAll(what.fits(dwelling));
                cures.addAll(what.cures(dwelling));
            }
        }
        return new DemandStudy(dwelling, wanted.edition(), all, fits, cures, wanted.metering());
    }

    /** Of several readings the greatest decides what is said to fit. */
    private static Optional<Demand> strictest(Method method, Dwelling d, Wanted wanted) {
        return demands(method, d, wanted.edition(), wanted).stream().max(Comparator.comparingDouble(Demand::amps));
    }

    private static List<Demand> demands(Method method, Dwelling d, int edition, Wanted wanted) {
        return switch (method) {
            case STANDARD -> List.of(Demands.standard(d, edition));
            case OPTIONAL -> List.of(Demands.optional(d, edition));
            case EXISTING -> Demands.existing(d, edition);
            case METERED -> {
                Metering m = wanted.metering();
                yield m == null || !m.isUsable() ? List.of() : Demands.metered(d, m, edition);
            }
            case UNITS ->
                wanted.units() == 0
                        ? List.of()
                        : List.of(Demands.units(Collections.nCopies(wanted.units(), d), edition));
        };
    }
}
