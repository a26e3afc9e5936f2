package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.panelplan.IntervalRecord;
import org.splicebook.panelplan.Metering;

/** A metered record, as text for people and as JSON. */
public final class IntervalText {
    private static final double KILO = 1000;
    private static final int BAR = 30;

    private IntervalText() {}

    /** {@return the readings, whether they may be used, and their hours, in lines of at most that width; none where only a figure was told} */
    static List<String> lines(Metering m, int width) {
        IntervalRecord r = m.record();
        IntervalRecord.Verdict verdict = m.verdict();
        if (r == null || verdict == null) {
            return List.of();
        }
        List<String> lines = new ArrayList<>(Lines.wrap(
                "Metered from " + r.from() + " to " + r.to() + ", " + r.count() + " intervals of " + r.minutes()
                        + " minutes, " + r.missing() + " missing. The greatest is " + kilo(r.peakVa()) + " kVA, from "
                        + r.peakAt() + ".",
                width));
        lines.addAll(Lines.wrap(said(verdict), width));
        verdict.reasons().forEach(x -> lines.addAll(Lines.bullet(x, width)));
        r.notes().forEach(x -> lines.addAll(Lines.bullet(x, width)));
        m.asked().forEach(x -> lines.addAll(Lines.bullet("To be told: " + x, width)));
        lines.add("");
        List<List<String>> rows = new ArrayList<>();
        for (int h = 0; h < r.most().size(); h++) {
            rows.add(List.of(
                    String.format(Locale.ROOT, "%02d", h),
                    kilo(r.mean().get(h)),
                    kilo(r.most().get(h)),
                    r.peakVa() <= 0
                            ? ""
                            : "#".repeat((int) Math.round(BAR * r.most().get(h) / r.peakVa()))));
        }
        lines.addAll(new Table(List.of("hour", "mean kVA", "greatest kVA", ""), rows).lines(width));
        return lines;
    }

    /** {@return whether readings may stand for the demand, in a sentence} */
    public static String said(IntervalRecord.Verdict verdict) {
        return switch (verdict.rule()) {
            case YEAR -> "It may stand for the demand as a record of a year (220.87).";
            case THIRTY_DAYS ->
                "It may stand for the demand as a record of 30 days, if what follows holds (220.87, exception).";
            case NEITHER -> "It may not stand for the demand, so the metered method does not use it (220.87).";
        };
    }

    /** {@return the same for programs} */
    static ObjectNode json(Metering m) {
        ObjectNode o = Json.object()
                .put("peakVa", m.peak())
                .put("raised", m.raised())
                .put("season", m.season())
                .put("usable", m.isUsable());
        o.set("asked", Json.tree(m.asked()));
        IntervalRecord r = m.record();
        IntervalRecord.Verdict verdict = m.verdict();
        return r == null || verdict == null ? o : readings(o, r, verdict);
    }

    private static ObjectNode readings(ObjectNode o, IntervalRecord r, IntervalRecord.Verdict verdict) {
        o.put("from", r.from().toString())
                .put("to", r.to().toString())
                .put("minutes", r.minutes())
                .put("count", r.count())
                .put("missing", r.missing())
                .put("peakAt", r.peakAt().toString())
                .put("rule", verdict.rule().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        o.set("reasons", Json.tree(verdict.reasons()));
        o.set("notes", Json.tree(r.notes()));
        o.set("hourlyMean", Json.tree(r.mean()));
        o.set("hourlyGreatest", Json.tree(r.most()));
        return o;
    }

    private static String kilo(double va) {
        return String.format(Locale.ROOT, "%.2f", va / KILO);
    }
}
