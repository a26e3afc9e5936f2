package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What happens when one connection of a neutral opens.
 *
 * @param connection the connection: {@code bench:K1.white}; {@code service.n} for the neutral of the service
 * @param loadPoint the load that then has the most volts for its rating
 * @param nominal its nominal volts
 * @param volts what it then has
 * @param before what it has while all is sound
 * @param tooHigh all loads that then have too many volts
 * @param tooLow all loads that then have too few, or none, and had enough before
 */
public record OpenNeutral(
        String connection,
        String loadPoint,
        double nominal,
        double volts,
        double before,
        List<String> tooHigh,
        List<String> tooLow) {
    /** Less than this share of the nominal voltage is no change. */
    private static final double NO_CHANGE = 0.005;

    private static final double LEG = 200;

    public OpenNeutral {
        tooHigh = List.copyOf(tooHigh);
        tooLow = List.copyOf(tooLow);
    }

    /**
     * {@return what every connection of a neutral does when it alone opens, to the loads of one leg that are on; worst first, those that
     * change nothing in this state left out}
     *
     * @throws org.splicebook.problem.ProblemException when the case names something that is not there
     */
    public static Report<OpenNeutral> in(LoadFlow flow, LoadCase state) {
        Solution sound = flow.solve(state).get();
        Map<Integer, Double> before = volts(sound);
        List<OpenNeutral> rows = new ArrayList<>();
        for (int c : NeutralSide.connections(sound)) {
            String name = sound.circuit().branches().get(c).name();
            Map<Integer, Double> after =
                    volts(flow.solve(state.fault(new Fault.Open(name))).get());
            OpenNeutral row = row(sound, name, before, after);
            if (row != null) {
                rows.add(row);
            }
        }
        rows.sort((a, b) -> Double.compare(b.volts / b.nominal, a.volts / a.nominal));
        return Report.on(
                sound,
                rows,
                "One connection opens at a time, and what is on stays on: other loads give other volts, and what burns out changes them.");
    }

    private static Map<Integer, Double> volts(Solution s) {
        Map<Integer, Double> volts = new HashMap<>();
        for (Loads.On on : Loads.in(s.circuit(), s.state())) {
            if (on.nominalVolts() < LEG || !hasLegs(s)) {
                Branch b = s.circuit().branches().get(on.branch());
                Volts v = s.volts(b.from(), b.to());
                volts.put(on.branch(), v.floats() ? 0 : v.magnitude());
            }
        }
        return volts;
    }

    /** On a single supply of 230 V every load is of one leg. */
    private static boolean hasLegs(Solution s) {
        return s.circuit().sources().stream()
                .noneMatch(x -> x.system().poles().get(0).volts() > LEG);
    }

    private static @Nullable OpenNeutral row(
            Solution s, String name, Map<Integer, Double> before, Map<Integer, Double> after) {
        List<String> high = new ArrayList<>();
        List<String> low = new ArrayList<>();
        Loads.On worst = null;
        double most = 0;
        boolean changes = false;
        for (Loads.On on : Loads.in(s.circuit(), s.state())) {
            Double was = before.get(on.branch());
            Double is = after.get(on.branch());
            if (was == null || is == null) {
                continue;
            }
            String load = s.circuit().branches().get(on.branch()).name();
            changes |= Math.abs(is - was) > NO_CHANGE * on.nominalVolts();
            if (is > Tables.number("limits", "high") * on.nominalVolts()) {
                high.add(load);
            } else if (is < Tables.number("limits", "low") * on.nominalVolts() && is < was) {
                low.add(load);
            }
            if (worst == null || is / on.nominalVolts() > most) {
                worst = on;
                most = is / on.nominalVolts();
            }
        }
        if (worst == null || !changes) {
            return null;
        }
        return new OpenNeutral(
                name,
                s.circuit().branches().get(worst.branch()).name(),
                worst.nominalVolts(),
                most * worst.nominalVolts(),
                before.getOrDefault(worst.branch(), 0.0),
                high,
                low);
    }
}
