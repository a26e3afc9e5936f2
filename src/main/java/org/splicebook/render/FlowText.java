package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.loadflow.Assumption;
import org.splicebook.loadflow.Cascade;
import org.splicebook.loadflow.Drive;
import org.splicebook.loadflow.FlowResult;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.VoltageAt;
import org.splicebook.loadflow.Volts;

/** Volts and amperes as text for people: what is wrong first, then every load point, then what it hangs on, then the cautions. */
public final class FlowText {
    private static final double LEAST_RESIDUAL = 1e-4;
    private static final int MOST_NAMES = 8;

    private final FlowResult r;
    private final int width;
    private final List<String> lines = new ArrayList<>();

    private FlowText(FlowResult r, int width) {
        this.r = r;
        this.width = width;
    }

    /**
     * {@return what is told of a case, in lines of at most that width}
     *
     * @param leastAmperes wires, connections and contacts with at least so many amperes are listed; null: none
     */
    public static String write(FlowResult r, @Nullable Double leastAmperes, int width) {
        FlowText text = new FlowText(r, width);
        text.head();
        text.trips();
        text.overloads();
        text.devices();
        text.hottest();
        text.points();
        if (leastAmperes != null) {
            text.branches(leastAmperes);
        }
        text.assumptions();
        text.title(ReplyText.CAUTIONS);
        text.bullets(Caution.forWhat(Leads.TO_A_WIRE));
        return String.join("\n", text.lines) + "\n";
    }

    private void say(String s) {
        lines.addAll(Lines.wrap(s, width));
    }

    private void title(String s) {
        lines.add("");
        say(s);
    }

    private void bullets(List<String> all) {
        all.forEach(s -> lines.addAll(Lines.bullet(s, width)));
    }

    private void table(String title, List<String> columns, List<List<String>> rows) {
        if (!rows.isEmpty()) {
            title(title);
            lines.addAll(new Table(columns, rows).lines(width));
        }
    }

    private void head() {
        Solution s = r.solution();
        say("Volts and amperes in " + s.circuit().house().said());
        say(said("The sources send %.0f W.", s.wattsIn()));
        long high = r.voltages().stream().filter(VoltageAt::high).count();
        long low = r.voltages().stream().filter(VoltageAt::low).count();
        long drop = r.voltages().stream().filter(VoltageAt::dropsTooMuch).count();
        say(
                high + low + drop == 0
                        ? "No load point is out of range."
                        : said(
                                "Too high at %d load points, too low at %d, with more drop than advised at %d.",
                                high, low, drop));
    }

    private void trips() {
        List<List<String>> rows = new ArrayList<>();
        for (Drive d : r.trips()) {
            boolean residual = d.cause() == Drive.Cause.RESIDUAL;
            rows.add(List.of(
                    d.unit(),
                    residual ? "residual" : "overload",
                    residual ? said("%.1f mA", d.amperes() * 1000) : said("%.1f A on %.0f A", d.amperes(), d.limit()),
                    FlowJson.said(d.time())));
        }
        table("What may trip, if this stays", List.of("unit", "by", "carries", "opens after"), rows);
        Cascade c = r.cascade();
        if (!r.trips().isEmpty()) {
            say(
                    c.mustTrip().isEmpty()
                            ? "None of them must trip."
                            : "Must trip: " + String.join(", ", c.mustTrip()) + ".");
            c.ends()
                    .forEach(e -> lines.addAll(Lines.bullet(
                            e.open().isEmpty()
                                    ? "It may end with nothing tripped."
                                    : "It may end with these open: "
                                            + String.join(
                                                    ", ",
                                                    e.open().stream().sorted().toList()) + ".",
                            width)));
            if (!c.whole()) {
                say("There are more orders of tripping than were followed.");
            }
        }
    }

    private void overloads() {
        table(
                "Wires that carry more than they may",
                List.of("wire", "carries", "may", "seen by"),
                r.overloads().stream()
                        .map(o -> List.of(
                                o.wire(),
                                said("%.1f A", o.amperes()),
                                said("%.0f A", o.limit()) + (o.sizeKnown() ? "" : " (size not recorded)"),
                                o.unseen() ? "no breaker" : String.join(", ", o.breakers())))
                        .toList());
    }

    private void devices() {
        table(
                "Currents that do not come back through their protective device",
                List.of("device", "residual"),
                r.solution().residuals().stream()
                        .filter(d -> d.amperes() >= LEAST_RESIDUAL)
                        .map(d -> List.of(d.sensor().name(), said("%.1f mA", d.amperes() * 1000)))
                        .toList());
    }

    private void hottest() {
        table(
                "Warmest connections",
                List.of("connection", "carries", "has", "gives off"),
                r.hottest().stream()
                        .map(h -> List.of(
                                h.arm(),
                                said("%.1f A", h.amperes()),
                                said("%.4f ohm", h.ohms()),
                                said("%.1f W", h.watts())))
                        .toList());
    }

    private void points() {
        List<List<String>> rows = new ArrayList<>();
        int judged = 0;
        for (Solution.AtPoint p : r.points()) {
            for (int i = 0; i < p.across().size(); i++) {
                VoltageAt v = r.voltages().get(judged++);
                rows.add(List.of(
                        v.terminals(),
                        volts(p.across().get(i)),
                        i == 0 ? volts(p.firstToGround()) : "",
                        i == 0 ? volts(p.secondToGround()) : "",
                        said("%.2f", p.amperes().get(i).magnitude()),
                        v.totalDrop() == null || v.totalDrop() < 0 ? "" : said("%.1f", v.totalDrop() * 100),
                        remark(v, p.across().get(i))));
            }
        }
        table(
                "Load points: volts across, first and second terminal to ground, amperes, drop in % from the source",
                List.of("load point", "volts", "to ground", "second", "amperes", "drop", ""), rows);
    }

    private static String remark(VoltageAt v, Volts across) {
        if (across.floats()) {
            return "nothing joins the two: what a meter shows is not known";
        }
        if (!across.fed()) {
            return "no recorded source reaches it; one not recorded may";
        }
        return v.high() ? "HIGH" : v.off() ? "should be off" : v.low() ? "low" : v.dropsTooMuch() ? "much drop" : "";
    }

    private static String volts(@Nullable Volts v) {
        return v == null ? "" : v.floats() ? "floats" : v.fed() ? said("%.1f", v.magnitude()) : "?";
    }

    private void branches(double least) {
        table(
                said("What carries %.2f A or more", least),
                List.of("branch", "amperes", "degrees"),
                r.carried(least).stream()
                        .map(c -> List.of(
                                c.name(),
                                said("%.3f", c.amperes().magnitude()),
                                said("%.0f", c.amperes().degrees())))
                        .toList());
    }

    private void assumptions() {
        title("What these figures hang on");
        for (Assumption a : r.assumptions()) {
            lines.addAll(Lines.bullet(a.about().isEmpty() ? a.said() : names(a.about()) + ": " + a.said(), width));
        }
    }

    static String names(String about) {
        String[] all = about.split(", ");
        return all.length <= MOST_NAMES
                ? about
                : String.join(", ", List.of(all).subList(0, MOST_NAMES)) + " and " + (all.length - MOST_NAMES)
                        + " more";
    }

    private static String said(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
