package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Overload;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

/**
 * What a change does to the currents of a house with certain loads on.
 *
 * @param loads which loads are on, for example {@code typical}
 * @param said what changes: a residual, what may trip, what carries more than it may
 * @param isWorse whether it is worse after the change than before
 */
public record CurrentChange(String loads, String said, boolean isWorse) {
    /** Residuals that differ by less are the same, in amperes: a tenth of what a ground-fault unit answers to. */
    private static final double SAME = 0.0005;

    /** Currents of poles that differ by less are the same, in amperes: what a few more feet of wire make. */
    private static final double SAME_POLE = 0.25;

    private record Found(Map<String, Double> residuals, Set<String> trips, Set<String> overloads) {}

    /** {@return what differs with the usual loads on, and with something in every receptacle} */
    public static List<CurrentChange> between(House before, House after) {
        LoadFlow was = LoadFlow.of(before);
        LoadFlow is = LoadFlow.of(after);
        List<CurrentChange> all = new ArrayList<>();
        for (LoadCase.Base base : List.of(LoadCase.Base.TYPICAL, LoadCase.Base.ALL_ON)) {
            String loads = word(base);
            Result<Solution> a = was.solve(LoadCase.of(base));
            Result<Solution> b = is.solve(LoadCase.of(base));
            if (a.isOk() && b.isOk()) {
                compare(loads, found(was, a.get()), found(is, b.get()), all);
            } else {
                all.add(new CurrentChange(loads, "The currents could not be computed.", true));
            }
        }
        return all;
    }

    /** {@return the poles whose current differs with the usual loads on, and with something in every receptacle; none is called worse} */
    public static List<CurrentChange> ofPoles(House before, House after) {
        LoadFlow was = LoadFlow.of(before);
        LoadFlow is = LoadFlow.of(after);
        List<CurrentChange> all = new ArrayList<>();
        for (LoadCase.Base base : List.of(LoadCase.Base.TYPICAL, LoadCase.Base.ALL_ON)) {
            Result<Solution> a = was.solve(LoadCase.of(base));
            Result<Solution> b = is.solve(LoadCase.of(base));
            if (a.isOk() && b.isOk()) {
                Map<String, Double> first = poles(a.get());
                Map<String, Double> then = poles(b.get());
                Set<String> names = new TreeSet<>(first.keySet());
                names.addAll(then.keySet());
                for (String pole : names) {
                    double x = first.getOrDefault(pole, 0.0);
                    double y = then.getOrDefault(pole, 0.0);
                    if (Math.abs(x - y) > SAME_POLE) {
                        String said = String.format(Locale.ROOT, "%s carries %.1f A, then %.1f A.", pole, x, y);
                        all.add(new CurrentChange(word(base), said, false));
                    }
                }
            }
        }
        return all;
    }

    private static Map<String, Double> poles(Solution s) {
        Set<String> names = new TreeSet<>();
        s.circuit()
                .house()
                .panels()
                .values()
                .forEach(p -> p.breakers()
                        .values()
                        .forEach(k -> k.spaces().forEach(space -> names.add(p.name() + "." + space))));
        Map<String, Double> all = new TreeMap<>();
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            String name = s.circuit().branches().get(i).name();
            if (names.contains(name)) {
                all.put(name, s.amperes(i).magnitude());
            }
        }
        return all;
    }

    private static String word(LoadCase.Base base) {
        return base.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Found found(LoadFlow flow, Solution s) {
        Map<String, Double> residuals = new TreeMap<>();
        s.residuals().forEach(r -> residuals.put(r.sensor().name(), r.amperes()));
        Set<String> trips = new TreeSet<>();
        Trips.in(s).forEach(d -> trips.add(d.unit()));
        Set<String> overloads = new TreeSet<>();
        for (Overload o : Overload.in(flow, s)) {
            overloads.add(o.wire());
        }
        return new Found(residuals, trips, overloads);
    }

    private static void compare(String loads, Found a, Found b, List<CurrentChange> all) {
        Set<String> sensors = new LinkedHashSet<>(b.residuals.keySet());
        sensors.addAll(a.residuals.keySet());
        for (String sensor : sensors) {
            double was = a.residuals.getOrDefault(sensor, 0.0);
            double is = b.residuals.getOrDefault(sensor, 0.0);
            if (Math.abs(was - is) > SAME) {
                all.add(new CurrentChange(
                        loads,
                        String.format(
                                Locale.ROOT, "Residual at %s: %.1f mA, then %.1f mA.", sensor, was * 1000, is * 1000),
                        is > was));
            }
        }
        each(loads, a.trips, b.trips, " may trip.", all);
        each(loads, a.overloads, b.overloads, " carries more than it may.", all);
    }

    private static void each(String loads, Set<String> a, Set<String> b, String what, List<CurrentChange> all) {
        b.stream().filter(x -> !a.contains(x)).forEach(x -> all.add(new CurrentChange(loads, x + what, true)));
        a.stream()
                .filter(x -> !b.contains(x))
                .forEach(x -> all.add(new CurrentChange(loads, "No more: " + x + what, false)));
    }
}
