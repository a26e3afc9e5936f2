package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.loadflow.Assumption;
import org.splicebook.loadflow.BreakerHolds;
import org.splicebook.loadflow.DeviceHolds;
import org.splicebook.loadflow.FaultCurrent;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.loadflow.LooseNeutral;
import org.splicebook.loadflow.OpenNeutral;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.RunLength;
import org.splicebook.record.House;

/** Reports of the load flow as text for people: the outcome first, then the figures, then what they hang on, then the cautions. */
public final class FlowReportText {
    private static final int MOST_NAMES = 3;
    private static final int MOST_LOOSE = 12;

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private FlowReportText(int width) {
        this.width = width;
    }

    /** {@return what a report tells of a house, in lines of at most that width} */
    public static String write(House house, FlowReport which, Report<?> report, int width) {
        FlowReportText t = new FlowReportText(width);
        t.body(house, which, report.rows());
        t.say("");
        t.say("What these figures hang on");
        for (Assumption a : report.assumptions()) {
            t.bullet(a.about().isEmpty() ? a.said() : FlowText.names(a.about()) + ": " + a.said());
        }
        t.say("");
        t.say(ReplyText.CAUTIONS);
        Caution.forWhat(Leads.TO_A_WIRE).forEach(t::bullet);
        return String.join("\n", t.lines) + "\n";
    }

    private void body(House house, FlowReport which, List<?> rows) {
        switch (which) {
            case OPEN_NEUTRAL -> openNeutrals(house, all(rows, OpenNeutral.class));
            case DEVICE_HOLDS -> all(rows, DeviceHolds.class).forEach(this::device);
            case BREAKER_HOLDS -> all(rows, BreakerHolds.class).forEach(this::breaker);
            case RUN_LENGTH -> runs(all(rows, RunLength.class));
            case FAULT_CURRENT -> faults("load point", all(rows, FaultCurrent.class));
            case PANEL_FAULT -> faults("panel", all(rows, FaultCurrent.class));
            case LOOSE_NEUTRAL -> loose(all(rows, LooseNeutral.class));
        }
    }

    private static <T> List<T> all(List<?> rows, Class<T> type) {
        return rows.stream().map(type::cast).toList();
    }

    private void say(String s) {
        lines.addAll(s.isEmpty() ? List.of("") : Lines.wrap(s, width));
    }

    private void bullet(String s) {
        lines.addAll(Lines.bullet(s, width));
    }

    private void table(List<String> columns, List<List<String>> rows) {
        if (!rows.isEmpty()) {
            say("");
            lines.addAll(new Table(columns, rows).lines(width));
        }
    }

    private void openNeutrals(House house, List<OpenNeutral> rows) {
        List<OpenNeutral> burns =
                rows.stream().filter(n -> !n.tooHigh().isEmpty()).toList();
        say(
                burns.isEmpty()
                        ? "No single open connection of a neutral puts too many volts on what is on in " + house.said()
                        : said(
                                "%d connections of a neutral put too many volts on something that is on, when one alone opens: %s",
                                burns.size(), house.said()));
        table(
                List.of("connection", "worst at", "volts", "now", "too high at", "too low or dead at"),
                burns.stream()
                        .map(n -> List.of(
                                n.connection(),
                                n.loadPoint(),
                                said("%.0f", n.volts()),
                                said("%.0f", n.before()),
                                some(n.tooHigh()),
                                some(n.tooLow())))
                        .toList());
        if (rows.size() > burns.size()) {
            say("");
            say(said(
                    "%d more only lower the volts or put out what returns over them; --json lists them.",
                    rows.size() - burns.size()));
        }
    }

    private static String some(List<String> names) {
        return names.size() <= MOST_NAMES
                ? String.join(", ", names)
                : String.join(", ", names.subList(0, MOST_NAMES)) + " and " + (names.size() - MOST_NAMES) + " more";
    }

    private void device(DeviceHolds d) {
        say(
                d.holds()
                        ? said(
                                "%s should hold: at most %.1f mA do not come back through it.",
                                d.device(), d.worst() * 1000)
                        : said(
                                "%s %s: up to %.1f mA do not come back through it; it opens after %s.",
                                d.device(),
                                d.time().must() ? "will trip" : "may trip",
                                d.worst() * 1000,
                                FlowJson.said(d.time())));
        table(
                List.of("load that adds to it", "adds", "alone, opens after"),
                d.shares().stream()
                        .map(s -> List.of(s.loadPoint(), said("%.1f mA", s.amperes() * 1000), FlowJson.said(s.time())))
                        .toList());
        table(
                List.of("why", "neutral", "at box", "breaker poles", "sureness"),
                d.crossings().stream()
                        .map(c -> List.of(
                                FlowReportJson.word(c.kind()).replace('-', ' '),
                                c.island(),
                                c.box() == null ? "" : c.box(),
                                String.join(", ", c.poles()),
                                FlowReportJson.word(c.sureness())))
                        .toList());
    }

    private void breaker(BreakerHolds b) {
        boolean unrated = b.poles().stream().anyMatch(p -> p.rating() == null);
        say(
                b.holds()
                        ? b.breaker() + " should hold."
                        : unrated
                                ? "Whether " + b.breaker() + " holds is not known: its rating is not recorded."
                                : b.breaker() + " may trip.");
        table(
                List.of("pole", "carries", "rating", "opens after", ""),
                b.poles().stream()
                        .map(p -> List.of(
                                p.pole(),
                                said("%.1f A", p.amperes()),
                                p.rating() == null ? "?" : said("%.0f A", p.rating()),
                                p.rating() == null ? "?" : FlowJson.said(p.time()),
                                p.tooMuchForLong() ? "too much for three hours" : ""))
                        .toList());
        table(
                List.of("unplug", "and plug in at", "fed by", "which then carries"),
                b.instead().stream()
                        .map(i ->
                                List.of(i.load(), i.to(), i.pole(), said("%.1f A on %.0f A", i.amperes(), i.rating())))
                        .toList());
    }

    private void runs(List<RunLength> rows) {
        say("How far a run can go before it loses more than that share of the volts, one way");
        table(
                List.of("size", "of", "metres", "feet", "wire may carry", ""),
                rows.stream()
                        .filter(RunLength::carries)
                        .map(r -> List.of(
                                r.size(),
                                FlowReportJson.word(r.material()),
                                said("%.0f", r.metres()),
                                said("%.0f", r.feet()),
                                said("%.0f A", r.limit()),
                                r.metres() == 0 ? "nothing of the drop is left" : ""))
                        .toList());
        say("Thinner wires may not carry it.");
    }

    private void faults(String where, List<FaultCurrent> rows) {
        long stay = rows.stream()
                .filter(f ->
                        f.outcome() == FaultCurrent.Outcome.MAY_STAY || f.outcome() == FaultCurrent.Outcome.NO_WAY_BACK)
                .count();
        say(
                where.equals("panel")
                        ? "What a fault at the supply lugs of a panel draws. What is in the panel must be rated to interrupt it; at the service only the utility's fuse clears it."
                        : stay == 0
                                ? "Every fault told here is cleared by something."
                                : said("%d faults may stay: nothing is bound to clear them.", stay));
        table(
                List.of(where, "between", "draws", "cleared by", "after", "outcome"),
                rows.stream()
                        .map(f -> List.of(
                                f.at(),
                                FlowReportJson.word(f.between()).replace('-', ' '),
                                f.amperes() == null ? "?" : said("%.0f A", f.amperes()),
                                f.clears() == null ? "" : f.clears().unit(),
                                f.clears() == null
                                        ? ""
                                        : FlowJson.said(f.clears().time()),
                                outcome(f.outcome())))
                        .toList());
    }

    private static String outcome(FaultCurrent.Outcome o) {
        return switch (o) {
            case AT_ONCE -> "cleared at once";
            case BY_HEAT -> "cleared by heat: seconds or minutes";
            case MAY_STAY -> "MAY STAY";
            case NO_WAY_BACK -> "NO WAY BACK: metal stays live";
            case BEFORE_THE_PANEL -> "what the panel must be able to interrupt";
        };
    }

    private void loose(List<LooseNeutral> rows) {
        LooseNeutral sound = rows.get(0);
        List<LooseNeutral> fit =
                rows.subList(1, rows.size()).stream().filter(LooseNeutral::fits).toList();
        if (sound.fits()) {
            say(said("A sound house explains the readings within %.2f V: no loose neutral shows.", sound.misses()));
        } else if (fit.isEmpty()) {
            say(said(
                    "No single loose connection of a neutral explains the readings. A sound house misses them by %.1f V.",
                    sound.misses()));
        } else {
            say(said(
                    "%d connections explain the readings; a sound house misses them by %.1f V.",
                    fit.size(), sound.misses()));
        }
        table(
                List.of("connection", "would have", "misses by", "fits"),
                rows.subList(1, Math.min(rows.size(), MOST_LOOSE + 1)).stream()
                        .map(l -> List.of(
                                l.connection(),
                                said("%.2f ohm", l.ohms()),
                                said("%.2f V", l.misses()),
                                l.fits() ? "yes" : "no"))
                        .toList());
    }

    private static String said(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
