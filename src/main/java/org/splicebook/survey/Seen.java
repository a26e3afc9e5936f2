package org.splicebook.survey;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.Complex;
import org.splicebook.loadflow.Drive;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Variations;
import org.splicebook.loadflow.Volts;

/**
 * What can be seen from outside, covers on, in one state of the house with one suspect in it, once what trips soon has tripped: volts at
 * every load point, and the breakers and devices found open.
 */
public final class Seen {
    /** How far a reading is off at most though all is as foretold: so many volts, and so large a share of it. */
    static final double NOTICED_VOLTS = 3;

    static final double NOTICED_SHARE = 0.03;
    /** The most that a meter of high impedance shows on what floats. */
    static final double MOST_GHOST = 90;

    private static final int MOST_TRIPS = 4;
    private static final double SOON_SECONDS = 60;
    /** Hot to neutral, hot to ground, neutral to ground, and the hot's phasor to the first panel's neutral bar. */
    private static final int HN = 0;

    private static final int HG = 1;
    private static final int NG = 2;
    private static final int RE = 3;
    private static final int IM = 4;
    private static final int SHARE = 5;
    private static final int EACH = 6;

    private final Faces faces;
    private final double[] figures;
    private final Set<String> tripped;

    private Seen(Faces faces, double[] figures, Set<String> tripped) {
        this.faces = faces;
        this.figures = figures;
        this.tripped = Set.copyOf(tripped);
    }

    /**
     * Volts at one load point; not a number where it floats or has no such terminal.
     *
     * @param share of its nominal voltage, 0 where nothing feeds it
     */
    public record AtPoint(double hotNeutral, double hotGround, double neutralGround, double share) {
        /** {@return what a lamp does} */
        public Symptom.Level level() {
            return share < 0.3
                    ? Symptom.Level.DEAD
                    : share < 0.9 ? Symptom.Level.DIM : share > 1.08 ? Symptom.Level.BRIGHT : Symptom.Level.LIVE;
        }

        /** {@return what a meter shows; not a number where it floats} */
        public double volts(Symptom.Between between) {
            return switch (between) {
                case HOT_NEUTRAL -> hotNeutral;
                case HOT_GROUND -> hotGround;
                case NEUTRAL_GROUND -> neutralGround;
            };
        }

        /** {@return its readings in words: hot to neutral, hot to ground, neutral to ground} */
        public String said() {
            return "hot to neutral " + Seen.said(hotNeutral) + ", hot to ground " + Seen.said(hotGround)
                    + ", neutral to ground " + Seen.said(neutralGround);
        }

        /** {@return whether a lamp does something else, or a reading is further off than meters and the loads taken for known may be} */
        boolean differs(AtPoint other) {
            return level() != other.level() || differsInVolts(other);
        }

        /** {@return whether a meter tells the two apart} */
        boolean differsInVolts(AtPoint other) {
            return Seen.differs(hotNeutral, other.hotNeutral)
                    || Seen.differs(hotGround, other.hotGround)
                    || Seen.differs(neutralGround, other.neutralGround);
        }
    }

    /** {@return volts in words} */
    static String said(double volts) {
        return Double.isNaN(volts) ? "nothing sure" : Math.round(volts) + " V";
    }

    /** {@return whether a meter tells two voltages apart} */
    static boolean differs(double a, double b) {
        if (Double.isNaN(a) || Double.isNaN(b)) { // what floats may show what a ghost does
            return a > MOST_GHOST || b > MOST_GHOST;
        }
        return Math.abs(a - b) > NOTICED_VOLTS + NOTICED_SHARE * Math.max(a, b);
    }

    /**
     * {@return what is seen with a suspect in a state}
     *
     * @param sound what is seen without, where that is known already
     */
    static Seen of(Variations state, Suspect suspect, Faces faces, @Nullable Seen sound) {
        Set<String> tripped = new TreeSet<>(suspect.opened());
        Variations.Varied v = state.with(suspect.faults(), tripped);
        for (int i = 0; i < MOST_TRIPS; i++) {
            Drive first = null;
            for (Drive d : state.driven(v.solution())) {
                if (first == null && d.time().earliest() <= SOON_SECONDS && !tripped.contains(d.unit())) {
                    first = d;
                }
            }
            if (first == null) {
                break;
            }
            tripped.add(first.unit());
            v = state.with(suspect.faults(), tripped);
        }
        return new Seen(faces, figures(v, faces, sound), tripped);
    }

    private static double[] figures(Variations.Varied v, Faces faces, @Nullable Seen sound) {
        double[] f = sound == null ? new double[faces.hot.length * EACH] : sound.figures.clone();
        for (int i = 0; i < faces.hot.length; i++) {
            int ground = faces.points.get(i).ground();
            boolean isAsBefore = sound != null
                    && v.isAsBefore(faces.hot[i])
                    && v.isAsBefore(faces.neutral[i])
                    && (ground < 0 || v.isAsBefore(ground));
            if (!isAsBefore) {
                figures(v.solution(), faces, i, f);
            }
        }
        return f;
    }

    private static void figures(Solution s, Faces faces, int i, double[] f) {
        int ground = faces.points.get(i).ground();
        Volts across = s.volts(faces.hot[i], faces.neutral[i]);
        int at = i * EACH;
        f[at + HN] = volts(across);
        f[at + HG] = ground < 0 ? Double.NaN : volts(s.volts(faces.hot[i], ground));
        f[at + NG] = ground < 0 ? Double.NaN : volts(s.volts(faces.neutral[i], ground));
        Optional<Complex> home = s.phasor(faces.hot[i], faces.reference);
        f[at + RE] = home.map(Complex::re).orElse(Double.NaN);
        f[at + IM] = home.map(Complex::im).orElse(Double.NaN);
        f[at + SHARE] = across.floats() || !across.fed() ? 0 : f[at + HN] / faces.nominal[i];
    }

    private static double volts(Volts v) {
        return v.floats() ? Double.NaN : v.fed() ? v.magnitude() : 0;
    }

    AtPoint at(String point) {
        return at(faces.of(point));
    }

    AtPoint at(int i) {
        int at = i * EACH;
        return new AtPoint(figures[at + HN], figures[at + HG], figures[at + NG], figures[at + SHARE]);
    }

    /** {@return volts between the hots of two load points; not a number where one floats} */
    double betweenHots(String a, String b) {
        int i = faces.of(a) * EACH;
        int j = faces.of(b) * EACH;
        return Math.hypot(figures[i + RE] - figures[j + RE], figures[i + IM] - figures[j + IM]);
    }

    /** {@return the breakers and devices found open} */
    public Set<String> tripped() {
        return tripped;
    }

    /** {@return the load points, by number} */
    List<String> names() {
        return faces.points.stream().map(p -> p.name()).toList();
    }

    /** {@return whether a person with a lamp and a meter would notice that this is not the other} */
    boolean differs(Seen other) {
        if (!tripped.equals(other.tripped)) {
            return true;
        }
        for (int i = 0; i < faces.hot.length; i++) {
            if (at(i).differs(other.at(i))) {
                return true;
            }
        }
        return false;
    }

    /** {@return a number that is the same for what looks the same, and for most else is not: volts by steps of 10} */
    int sketch() {
        int h = tripped.hashCode();
        for (int i = 0; i < figures.length; i++) {
            int part = i % EACH;
            if (part <= NG) {
                h = 31 * h + (Double.isNaN(figures[i]) ? -1 : (int) Math.round(figures[i] / 10));
            }
        }
        return h;
    }
}
