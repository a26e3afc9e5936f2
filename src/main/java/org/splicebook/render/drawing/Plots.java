package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.IntervalRecord;
import org.splicebook.panelplan.upgrade.DemandPapers;
import org.splicebook.record.House;
import org.splicebook.wiring.PanelLegs;

/**
 * Plots, as narrow as a telephone: bars with their words above and their figure beside them, so that nothing hangs on shade. Every figure is
 * told in the plot's words too.
 */
public final class Plots {
    private static final double WIDE = 340;
    private static final double BAR = 256;
    private static final double THICK = 14;
    private static final double HIGH = 150;
    private static final double SHADE = 0.35;
    private static final double ONE_LEG = 120;
    private static final double KILO = 1000;
    private static final int HOURS = 24;
    private static final int QUARTER = 6;

    private Plots() {}

    /**
     * One bar.
     *
     * @param words what it is
     * @param amperes how long it is
     * @param isHollow whether it is only a frame: how it is today, beside how it would be
     */
    private record Bar(String words, double amperes, boolean isHollow) {}

    /** {@return demands against a rating in amperes; null where none is known} */
    public static Drawing demand(House house, List<Demand> demands, @Nullable Double rating) {
        List<Bar> bars = demands.stream()
                .map(d -> new Bar(
                        DemandPapers.name(d) + " (" + d.edition() + "): "
                                + d.verdict().word(),
                        d.amps(),
                        false))
                .toList();
        return bars(house, "Demand by method, in amperes", bars, rating);
    }

    /** {@return the demand on each leg before and after, both in volt-amperes} */
    public static Drawing legs(House house, List<Double> before, List<Double> after) {
        List<Bar> bars = new ArrayList<>();
        for (int i = 0; i < after.size(); i++) {
            String leg = "leg " + PanelLegs.letter(i).toUpperCase(Locale.ROOT);
            bars.add(new Bar(leg + " before", (i < before.size() ? before.get(i) : 0) / ONE_LEG, true));
            bars.add(new Bar(leg + " after", after.get(i) / ONE_LEG, false));
        }
        return bars(house, "Demand on the legs, in amperes", bars, null);
    }

    private static Drawing bars(House house, String title, List<Bar> bars, @Nullable Double line) {
        double most = Math.max(
                line == null ? 1 : line,
                bars.stream().mapToDouble(Bar::amperes).max().orElse(1));
        double scale = BAR / Math.max(1, most);
        Sketch s = new Sketch(house).bold(Sketch.MARGIN, Sketch.LINE, Sketch.PLAIN, title);
        double y = 2 * Sketch.LINE;
        List<String> said = new ArrayList<>();
        for (Bar b : bars) {
            for (String words : Sketch.wrap(b.words(), Sketch.SMALL, WIDE - Sketch.MARGIN)) {
                s.text(Sketch.MARGIN, y + Sketch.SMALL, Sketch.SMALL, words);
                y += Sketch.LINE;
            }
            double wide = Math.max(0, b.amperes() * scale);
            if (!b.isHollow()) {
                s.bar(Sketch.MARGIN, y, wide, THICK, SHADE);
            }
            s.frame(Sketch.MARGIN, y, wide, THICK, 1, true);
            s.text(Sketch.MARGIN + BAR + 8, y + Sketch.SMALL, Sketch.SMALL, amperes(b.amperes()));
            if (line != null) {
                double x = Sketch.MARGIN + line * scale;
                s.line(2, "", x, y - 3, x, y + THICK + 3);
            }
            said.add(b.words() + ", " + amperes(b.amperes()));
            y += THICK + 8;
        }
        if (line != null) {
            double x = Sketch.MARGIN + line * scale;
            String rating = "rating " + amperes(line);
            s.line(2, "", x, y - 5, x, y + 3);
            s.text(
                    Math.max(Sketch.MARGIN, x - Sketch.width(rating, Sketch.SMALL, false)),
                    y + Sketch.LINE,
                    Sketch.SMALL,
                    rating);
            said.add(rating);
        }
        return s.done(title, title + ": " + String.join("; ", said) + ".");
    }

    private static String amperes(double a) {
        return String.format(Locale.ROOT, "%.1f A", a);
    }

    /** {@return what a meter showed by the hour of the day: its mean as bars, its greatest as a line} */
    public static Drawing hours(House house, IntervalRecord r) {
        String title = "What the meter showed by the hour, in kVA";
        double most = Math.max(1, r.peakVa());
        double left = 44;
        double top = 2 * Sketch.LINE + 2;
        double step = (WIDE - left) / HOURS;
        Sketch s = new Sketch(house).bold(Sketch.MARGIN, Sketch.LINE, Sketch.PLAIN, title);
        for (int i = 0; i <= 2; i++) {
            double y = top + HIGH * (1 - i / 2.0);
            s.line(0.5, i == 0 ? "" : "2 4", left, y, WIDE, y);
            s.text(Sketch.MARGIN, y + 4, Sketch.SMALL, kilo(most * i / 2));
        }
        double[] line = new double[2 * HOURS];
        List<String> said = new ArrayList<>();
        for (int h = 0; h < HOURS; h++) {
            double mean = HIGH * r.mean().get(h) / most;
            double x = left + h * step;
            s.bar(x + 1, top + HIGH - mean, step - 2, mean, SHADE);
            line[2 * h] = x + step / 2;
            line[2 * h + 1] = top + HIGH * (1 - r.most().get(h) / most);
            said.add(String.format(
                    Locale.ROOT,
                    "%02d: mean %s, greatest %s",
                    h,
                    kilo(r.mean().get(h)),
                    kilo(r.most().get(h))));
        }
        s.line(1.5, "", line);
        for (int h = 0; h < HOURS; h++) {
            s.dot(line[2 * h], line[2 * h + 1], 2.5, true);
        }
        for (int h = 0; h < HOURS; h += QUARTER) {
            s.text(left + h * step, top + HIGH + Sketch.LINE, Sketch.SMALL, h + " h");
        }
        s.text(
                Sketch.MARGIN,
                top + HIGH + 2 * Sketch.LINE + 4,
                Sketch.SMALL,
                "Bars: mean. Line: greatest, " + r.minutes() + " minutes each.");
        return s.done(title, title + ". " + String.join("; ", said) + ".");
    }

    private static String kilo(double va) {
        return String.format(Locale.ROOT, "%.1f", va / KILO);
    }
}
