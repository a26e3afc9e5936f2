package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Wire;

/**
 * How far a run of one wire size can go.
 *
 * @param size the size: {@code 12}, {@code 2/0}, {@code 250}
 * @param material what it is of
 * @param metres how far, one way; 0 where nothing of the drop is left for it
 * @param limit what the wire may carry, in amperes: the 60 °C column
 * @param carries whether it may carry the load at all
 */
public record RunLength(String size, Wire.Material material, double metres, double limit, boolean carries) {
    /**
     * A run that is thought of.
     *
     * @param from the load point that it goes on from; empty: a panel
     * @param volts nominal volts of its load, between its two wires
     * @param amperes what the load takes
     * @param powerFactor its power factor, above 0 to 1
     * @param share how much of the nominal volts may be lost between the panel and the load: 0.03
     */
    public record Run(String from, double volts, double amperes, double powerFactor, double share) {}

    private static final double FOOT = 0.3048;

    /** {@return how far, one way, in feet} */
    public double feet() {
        return metres / FOOT;
    }

    /**
     * {@return how far each size of wire can go, thinnest first}
     *
     * @throws ProblemException when there is no such load point, or the case names something that is not there
     */
    public static Report<RunLength> of(LoadFlow flow, LoadCase state, Run run) {
        Solution s = flow.solve(state).get();
        double left = run.volts * run.share;
        if (!run.from.isEmpty()) {
            left -= lostBefore(flow, state, run);
        }
        double sine = Math.sqrt(1 - run.powerFactor * run.powerFactor);
        double celsius = state.physics().celsius();
        double hertz = Admittances.hertz(s.circuit(), state.physics());
        List<RunLength> rows = new ArrayList<>();
        for (Map.Entry<String, Map<String, String>> row : Tables.rows("wires").entrySet()) {
            for (Wire.Material material : List.of(Wire.Material.COPPER, Wire.Material.ALUMINIUM)) {
                double limit = Conductor.limit(new Wire("w", "black", row.getKey(), material, false));
                if (limit > 0) {
                    Conductor c = Conductor.of(row.getKey(), material);
                    double reactance = state.physics().reactance() ? c.reactancePerMetre() * hertz / 60 * sine : 0;
                    double perMetre = 2 * run.amperes * (c.ohms(1, celsius) * run.powerFactor + reactance);
                    rows.add(new RunLength(
                            row.getKey(), material, Math.max(0, left / perMetre), limit, run.amperes <= limit));
                }
            }
        }
        return Report.on(
                s,
                rows,
                "Of the table's resistances at the temperature of the wires: the same wire cold goes further. 3 % for a branch circuit is "
                        + "advice of the code, not a rule of it; the breaker must not be larger than the wire may carry.",
                "A run of two wires to one load at its end.");
    }

    /** What the way to where the run begins loses with its load on it. */
    private static double lostBefore(LoadFlow flow, LoadCase state, Run run) {
        LoadPoint p = flow.circuit().findLoadPoint(run.from);
        if (p == null) {
            throw new ProblemException(Problem.error(
                    ProblemKind.DANGLING_NAME,
                    Where.field("from"),
                    "There is no load point \"" + run.from + "\".",
                    "Name the load point that the run goes on from, or none for a run from the panel."));
        }
        Solution s = flow.solve(state.load(run.from, Load.amperes(run.amperes, run.powerFactor)))
                .get();
        Double drop = VoltageAt.in(s).stream()
                .filter(v -> v.point().equals(run.from))
                .map(VoltageAt::branchDrop)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
        if (drop == null) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("from"),
                    "It cannot be said what feeds \"" + run.from + "\".",
                    "Name a load point that one breaker feeds in this case."));
        }
        return drop * run.volts;
    }
}
