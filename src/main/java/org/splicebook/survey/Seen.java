package org.splicebook.survey;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.Drive;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.loadflow.Volts;

/**
 * What can be seen from outside, covers on, in one state of the house with one suspect in it, once what trips soon has tripped.
 *
 * @param points what there is at each load point
 * @param tripped breakers and devices found open
 */
public record Seen(Map<String, AtPoint> points, Set<String> tripped) {
    /** How far a reading is off at most though all is as foretold: so many volts, and so large a share of it. */
    static final double NOTICED_VOLTS = 3;

    static final double NOTICED_SHARE = 0.03;
    /** The most that a meter of high impedance shows on what floats. */
    static final double MOST_GHOST = 90;

    private static final int MOST_TRIPS = 4;
    private static final double SOON_SECONDS = 60;

    /**
     * Volts at one load point; not a number where it floats or has no such terminal.
     *
     * @param share of its nominal voltage, 0 where nothing feeds it
     */
    record AtPoint(double hotNeutral, double hotGround, double neutralGround, double share) {
        Symptom.Level level() {
            return share < 0.3
                    ? Symptom.Level.DEAD
                    : share < 0.9 ? Symptom.Level.DIM : share > 1.08 ? Symptom.Level.BRIGHT : Symptom.Level.LIVE;
        }

        /** {@return whether a lamp does something else, or a reading is further off than meters and the loads taken for known may be} */
        boolean differs(AtPoint other) {
            return level() != other.level()
                    || differs(hotNeutral, other.hotNeutral)
                    || differs(hotGround, other.hotGround)
                    || differs(neutralGround, other.neutralGround);
        }

        private static boolean differs(double a, double b) {
            if (Double.isNaN(a) || Double.isNaN(b)) { // what floats may show what a ghost does
                return a > MOST_GHOST || b > MOST_GHOST;
            }
            return Math.abs(a - b) > NOTICED_VOLTS + NOTICED_SHARE * Math.max(a, b);
        }

        double volts(Symptom.Between between) {
            return switch (between) {
                case HOT_NEUTRAL -> hotNeutral;
                case HOT_GROUND -> hotGround;
                case NEUTRAL_GROUND -> neutralGround;
            };
        }

        /** {@return its three readings, coarse, so that equal words mean that a meter would not tell them apart} */
        String coarse(double step) {
            return step(hotNeutral, step) + "/" + step(hotGround, step) + "/" + step(neutralGround, step);
        }

        private static String step(double volts, double step) {
            return Double.isNaN(volts) ? "~" : String.valueOf(Math.round(volts / step) * (long) step);
        }
    }

    static Seen of(LoadFlow flow, LoadCase state, Suspect suspect) {
        LoadCase c = suspect.in(state);
        Set<String> tripped = new TreeSet<>(suspect.opened());
        Solution s = flow.solve(c).get();
        for (int i = 0; i < MOST_TRIPS; i++) {
            Drive first = Trips.in(s).stream()
                    .filter(d -> d.time().latest() < SOON_SECONDS)
                    .findFirst()
                    .orElse(null);
            if (first == null) {
                break;
            }
            tripped.add(first.unit());
            c = c.open(first.unit());
            s = flow.solve(c).get();
        }
        Map<String, AtPoint> points = new LinkedHashMap<>();
        for (Solution.AtPoint p : s.points()) {
            Volts across = p.across().get(0);
            double volts = volts(across);
            double nominal = p.point().pairs().get(0).volts();
            double share = Double.isNaN(volts) || !across.fed() ? 0 : volts / nominal;
            points.put(
                    p.point().name(), new AtPoint(volts, volts(p.firstToGround()), volts(p.secondToGround()), share));
        }
        return new Seen(points, tripped);
    }

    private static double volts(@Nullable Volts v) {
        return v == null || v.floats() ? Double.NaN : v.magnitude();
    }

    AtPoint at(String point) {
        return Objects.requireNonNull(points.get(point), point);
    }

    /** {@return whether a person with a lamp and a meter would notice that this is not the other} */
    boolean differs(Seen other) {
        return !tripped.equals(other.tripped)
                || points.entrySet().stream().anyMatch(e -> e.getValue().differs(other.at(e.getKey())));
    }

    /** {@return all of it in words, coarse to 5 V: what has the same words nobody tells apart in this state} */
    String words() {
        StringBuilder all = new StringBuilder();
        points.forEach((name, p) -> all.append(p.coarse(5)).append(p.level()).append(' '));
        return all.append(tripped).toString();
    }
}
