package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.wiring.PanelLegs;

/** Plots of a plan for a new panel, as SVG: bars whose figures stand beside them, so that nothing hangs on colour. */
public final class PlanPlots {
    /** The width of a plot. */
    public static final double WIDTH = 640;

    private static final double ROW = 22;
    private static final double LEFT = 230;
    private static final double BAR = 300;
    private static final double ONE_LEG = 120;

    private PlanPlots() {}

    /**
     * A plot.
     *
     * @param title what it shows
     * @param svg the plot
     * @param height its height
     */
    public record Plot(String title, String svg, double height) {}

    private record Bar(String words, double amperes, boolean isLight) {}

    /** {@return the demand by each method against the rating of the new main} */
    public static Plot demand(UpgradePlan plan) {
        List<Bar> bars = new ArrayList<>();
        for (Demand d : plan.demands()) {
            String reading = d.reading().isEmpty() ? "" : ", " + d.reading().split(":")[0];
            bars.add(new Bar(
                    d.method().word() + reading + " (" + d.edition() + "): "
                            + d.verdict().word(),
                    d.amps(),
                    false));
        }
        return plot("Demand by method, in amperes; the line is the new main", bars, (double)
                plan.wanted().kind().main());
    }

    /** {@return the demand on each leg before and after} */
    public static Plot legs(UpgradePlan plan) {
        List<Bar> bars = new ArrayList<>();
        for (int i = 0; i < plan.legsAfter().size(); i++) {
            String leg = "leg " + PanelLegs.letter(i).toUpperCase(Locale.ROOT);
            double before = i < plan.legsBefore().size() ? plan.legsBefore().get(i) : 0;
            bars.add(new Bar(leg + " before", before / ONE_LEG, true));
            bars.add(new Bar(leg + " after", plan.legsAfter().get(i) / ONE_LEG, false));
        }
        return plot("Demand on the legs, in amperes", bars, null);
    }

    private static Plot plot(String title, List<Bar> bars, @org.jspecify.annotations.Nullable Double line) {
        double most = Math.max(
                line == null ? 1 : line,
                bars.stream().mapToDouble(Bar::amperes).max().orElse(1));
        double scale = BAR / Math.max(1, most);
        double height = (bars.size() + 1) * ROW + 8;
        StringBuilder s = new StringBuilder();
        s.append(String.format(
                Locale.ROOT,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" width=\"%.0f\" height=\"%.0f\""
                        + " role=\"img\" font-family=\"sans-serif\"><title>%s</title>",
                WIDTH,
                height,
                WIDTH,
                height,
                escaped(title)));
        for (int i = 0; i < bars.size(); i++) {
            Bar b = bars.get(i);
            double y = 8 + i * ROW;
            words(s, 4, y + 14, b.words());
            s.append(String.format(
                    Locale.ROOT,
                    "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"16\" fill=\"%s\" stroke=\"#333333\"/>",
                    LEFT,
                    y,
                    Math.max(0, b.amperes() * scale),
                    b.isLight() ? "#ffffff" : "#999999"));
            words(s, LEFT + b.amperes() * scale + 6, y + 14, String.format(Locale.ROOT, "%.1f A", b.amperes()));
        }
        if (line != null) {
            double x = LEFT + line * scale;
            s.append(String.format(
                    Locale.ROOT,
                    "<polyline points=\"%.1f,2 %.1f,%.1f\" fill=\"none\" stroke=\"#000000\" stroke-width=\"2\"/>",
                    x,
                    x,
                    bars.size() * ROW + 8));
            words(s, x - 30, bars.size() * ROW + 22, String.format(Locale.ROOT, "main %.0f A", line));
        }
        return new Plot(title, s.append("</svg>").toString(), height);
    }

    private static void words(StringBuilder s, double x, double y, String words) {
        s.append(String.format(
                Locale.ROOT, "<text x=\"%.1f\" y=\"%.1f\" font-size=\"12\">%s</text>", x, y, escaped(words)));
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
