package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.loadflow.BreakerHolds;
import org.splicebook.loadflow.DeviceHolds;
import org.splicebook.loadflow.FaultCurrent;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.loadflow.LooseNeutral;
import org.splicebook.loadflow.OpenNeutral;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.RunLength;
import org.splicebook.loadflow.TripTime;
import org.splicebook.record.House;

/** Reports of the load flow as JSON. What never comes is null. */
public final class FlowReportJson {
    private FlowReportJson() {}

    /** {@return all that a report tells of a house} */
    public static ObjectNode write(House house, FlowReport which, Report<?> report) {
        ObjectNode o = Json.object().put("house", house.id()).put("report", which.word());
        o.set("rows", Json.list(report.rows(), FlowReportJson::row));
        o.set("assumptions", FlowJson.assumptions(report.assumptions()));
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }

    private static ObjectNode row(Object row) {
        if (row instanceof OpenNeutral n) {
            ObjectNode o = Json.object().put("connection", n.connection()).put("load-point", n.loadPoint());
            o.put("nominal", n.nominal()).put("volts", n.volts()).put("volts-before", n.before());
            o.set("too-high", Json.tree(n.tooHigh()));
            o.set("too-low", Json.tree(n.tooLow()));
            return o;
        } else if (row instanceof DeviceHolds d) {
            return device(d);
        } else if (row instanceof BreakerHolds b) {
            return breaker(b);
        } else if (row instanceof RunLength r) {
            return Json.object()
                    .put("size", r.size())
                    .put("material", word(r.material()))
                    .put("metres", r.metres())
                    .put("feet", r.feet())
                    .put("limit-amperes", r.limit())
                    .put("carries-the-load", r.carries());
        } else if (row instanceof FaultCurrent f) {
            ObjectNode o = Json.object().put("at", f.at()).put("between", word(f.between()));
            o.put("amperes", f.amperes()).put("outcome", word(f.outcome()));
            o.set("clears", f.clears() == null ? null : FlowJson.drive(f.clears()));
            return o;
        } else if (row instanceof LooseNeutral l) {
            return Json.object()
                    .put("connection", l.connection())
                    .put("ohms", l.ohms())
                    .put("misses-by-volts", l.misses())
                    .put("fits", l.fits());
        }
        throw new IllegalArgumentException("No report has such a row: " + row);
    }

    private static ObjectNode device(DeviceHolds d) {
        ObjectNode o = Json.object().put("device", d.device()).put("holds", d.holds());
        o.put("all-on-amperes", d.allOn()).put("worst-amperes", d.worst());
        o.set("opens", time(d.time()));
        o.set("shares", Json.list(d.shares(), s -> {
            ObjectNode share = Json.object().put("load-point", s.loadPoint()).put("amperes", s.amperes());
            share.set("opens", time(s.time()));
            return share;
        }));
        o.set("crossings", Json.list(d.crossings(), c -> {
            ObjectNode crossing = Json.object().put("kind", word(c.kind())).put("island", c.island());
            crossing.put("box", c.box()).put("sureness", word(c.sureness()));
            crossing.set("poles", Json.tree(c.poles()));
            return crossing;
        }));
        return o;
    }

    private static ObjectNode breaker(BreakerHolds b) {
        ObjectNode o = Json.object().put("breaker", b.breaker()).put("holds", b.holds());
        o.set("poles", Json.list(b.poles(), p -> {
            ObjectNode pole = Json.object().put("pole", p.pole()).put("amperes", p.amperes());
            pole.put("rating", p.rating()).put("too-much-for-three-hours", p.tooMuchForLong());
            pole.set("opens", time(p.time()));
            return pole;
        }));
        o.set(
                "instead",
                Json.list(
                        b.instead(),
                        i -> Json.object()
                                .put("load", i.load())
                                .put("to", i.to())
                                .put("pole", i.pole())
                                .put("amperes", i.amperes())
                                .put("rating", i.rating())));
        return o;
    }

    private static @Nullable ObjectNode time(TripTime t) {
        return t.may() ? FlowJson.times(Json.object(), t.earliest(), t.latest()) : null;
    }

    /** {@return the reports there are} */
    public static ArrayNode list() {
        return Json.list(
                List.of(FlowReport.values()),
                r -> Json.object().put("report", r.word()).put("tells", r.tells()));
    }

    static String word(Enum<?> e) {
        return e.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
