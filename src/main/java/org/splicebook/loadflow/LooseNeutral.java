package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A connection of a neutral that may be the loose one, fitted to readings.
 *
 * @param connection the connection: {@code bench:K1.white}; {@code service.n} for the neutral of the service
 * @param ohms how loose it would be: the resistance that fits best
 * @param misses how far the readings then are from what they should be: root of the mean square, in volts
 * @param fits whether that is within the error of the meter
 */
public record LooseNeutral(String connection, double ohms, double misses, boolean fits) {
    /**
     * One reading of a meter.
     *
     * @param state what was on
     * @param from one node that was touched: {@code a.hot}
     * @param to the other
     * @param volts what the meter showed
     */
    public record Reading(LoadCase state, String from, String to, double volts) {}

    private static final double MOST_OHMS = 1e4;
    private static final double LEAST_OHMS = 1e-3;
    private static final int STEPS = 140;

    /**
     * {@return the connections ranked by how well one resistance in one of them explains all readings, least squares, best first; the
     * first row has an empty name and tells how well a sound house does}
     *
     * @param meterVolts how far the meter and the assumed loads may be off
     * @throws org.splicebook.problem.ProblemException when a case names something that is not there
     * @throws IllegalArgumentException when there is no reading, or a node is not there
     */
    public static Report<LooseNeutral> fit(LoadFlow flow, List<Reading> readings, double meterVolts) {
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("no readings");
        }
        Map<LoadCase, Solution> sound = new HashMap<>();
        readings.forEach(r -> sound.computeIfAbsent(r.state, c -> flow.solve(c).get()));
        Solution first = at(sound, readings.get(0));
        List<LooseNeutral> rows = new ArrayList<>();
        for (int c : NeutralSide.connections(first)) {
            fit(flow, readings, sound, first.circuit().branches().get(c).name(), meterVolts)
                    .ifPresent(rows::add);
        }
        rows.sort((a, b) -> Double.compare(a.misses, b.misses));
        double none = 0;
        for (Reading r : readings) {
            none += square(magnitude(at(sound, r), r) - r.volts);
        }
        none = Math.sqrt(none / readings.size());
        rows.add(0, new LooseNeutral("", 0, none, none <= meterVolts));
        return Report.on(
                first,
                rows,
                "One connection alone is loose, and its resistance is the same in all readings.",
                "The test loads are what the cases say, as impedances. Readings of unlike test loads tell connections apart that one reading "
                        + "cannot; two ends of one wire, and connections in a row with nothing between, are never told apart.");
    }

    /** How one reading goes with the resistance of one connection: between sound and open, as a Möbius function of it. */
    private record Curve(Complex sound, Complex open, Complex loop, double volts) {
        double miss(double ohms) {
            Complex share = loop.over(loop.plus(Complex.of(ohms)));
            return open.plus(sound.minus(open).times(share)).magnitude() - volts;
        }
    }

    private static Optional<LooseNeutral> fit(
            LoadFlow flow,
            List<Reading> readings,
            Map<LoadCase, Solution> sound,
            String connection,
            double meterVolts) {
        Map<LoadCase, Solution> opened = new HashMap<>();
        List<Curve> curves = new ArrayList<>();
        boolean matters = false;
        for (Reading r : readings) {
            Solution closed = at(sound, r);
            Solution open = opened.computeIfAbsent(
                    r.state,
                    c -> flow.solve(c.fault(new Fault.Open(connection))).get());
            Curve curve = curve(closed, open, connection, r);
            if (curve == null) {
                return Optional.empty();
            }
            matters |= curve.sound.minus(curve.open).magnitude() > 1e-3;
            curves.add(curve);
        }
        if (!matters) {
            return Optional.empty();
        }
        double best = LEAST_OHMS;
        double ratio = Math.pow(MOST_OHMS / LEAST_OHMS, 1.0 / STEPS);
        for (double r = LEAST_OHMS; r <= MOST_OHMS; r *= ratio) {
            best = misses(curves, r) < misses(curves, best) ? r : best;
        }
        double low = best / ratio;
        double high = best * ratio;
        for (int i = 0; i < 60; i++) { // the smaller of two thirds is kept
            double a = low + (high - low) / 3;
            double b = high - (high - low) / 3;
            if (misses(curves, a) < misses(curves, b)) {
                high = b;
            } else {
                low = a;
            }
        }
        double ohms = (low + high) / 2;
        double misses = misses(curves, ohms);
        return Optional.of(new LooseNeutral(connection, ohms, misses, misses <= meterVolts));
    }

    private static double misses(List<Curve> curves, double ohms) {
        double sum = 0;
        for (Curve c : curves) {
            sum += square(c.miss(ohms));
        }
        return Math.sqrt(sum / curves.size());
    }

    /** Null where the connection, once open, leaves something afloat that was read. */
    private static @Nullable Curve curve(Solution closed, Solution open, String connection, Reading r) {
        int branch = Objects.requireNonNull(closed.circuit().findBranch(connection));
        Branch b = closed.circuit().branches().get(branch);
        Volts soundVolts = closed.volts(r.from, r.to);
        Volts openVolts = open.volts(r.from, r.to);
        Volts gap = open.volts(b.from(), b.to());
        Complex amperes = closed.amperes(branch);
        if (soundVolts.floats()) {
            return null;
        }
        if (amperes.magnitude() < 1e-9) { // it carries nothing here, so its ohms do not show
            return new Curve(soundVolts.known(), soundVolts.known(), Complex.of(1), r.volts);
        }
        if (openVolts.floats() || gap.floats()) {
            return null;
        }
        // The open voltage over the current is all the rest of the loop, the connection's own sound ohms in it.
        return new Curve(soundVolts.known(), openVolts.known(), gap.known().over(amperes), r.volts);
    }

    private static Solution at(Map<LoadCase, Solution> solved, Reading r) {
        return Objects.requireNonNull(solved.get(r.state));
    }

    private static double magnitude(Solution s, Reading r) {
        Volts v = s.volts(r.from, r.to);
        return v.floats() ? 0 : v.magnitude();
    }

    private static double square(double x) {
        return x * x;
    }
}
