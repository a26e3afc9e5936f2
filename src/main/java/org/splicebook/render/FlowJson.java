package org.splicebook.render;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.loadflow.Assumption;
import org.splicebook.loadflow.Cascade;
import org.splicebook.loadflow.Complex;
import org.splicebook.loadflow.Drive;
import org.splicebook.loadflow.FlowResult;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.TripTime;
import org.splicebook.loadflow.Volts;

/** Volts and amperes as JSON. Phasors are magnitude and angle; what floats is null, with the word for it beside. */
public final class FlowJson {
    /** Less than this is nothing but rounding. */
    private static final double LEAST_AMPERES = 1e-6;

    private FlowJson() {}

    /** {@return all that is told of one case} */
    public static ObjectNode write(FlowResult r) {
        Solution s = r.solution();
        ObjectNode o = Json.object();
        o.put("house", s.circuit().house().id());
        o.put("settled", s.settled());
        o.put("watts", s.wattsIn());
        o.set("points", Json.list(r.points(), p -> point(s, p)));
        o.set("voltages", Json.list(r.voltages(), v -> {
            ObjectNode x = Json.object();
            x.put("point", v.point()).put("across", v.terminals()).put("nominal", v.nominal());
            x.put("volts", v.volts()).put("pole", v.pole());
            x.put("branch-drop", v.branchDrop()).put("total-drop", v.totalDrop());
            return x.put("high", v.high()).put("low", v.low()).put("drops-too-much", v.dropsTooMuch());
        }));
        o.set(
                "protective-devices",
                Json.list(
                        s.residuals(),
                        d -> Json.object().put("device", d.sensor().name()).put("residual-amperes", d.amperes())));
        o.set("overloads", Json.list(r.overloads(), x -> {
            ObjectNode n = Json.object();
            n.put("wire", x.wire()).put("amperes", x.amperes()).put("limit", x.limit());
            n.put("size-known", x.sizeKnown()).put("no-breaker-sees-it", x.unseen());
            n.set("breakers", strings(x.breakers()));
            return n;
        }));
        o.set(
                "hottest",
                Json.list(
                        r.hottest(),
                        h -> Json.object()
                                .put("connection", h.arm())
                                .put("amperes", h.amperes())
                                .put("ohms", h.ohms())
                                .put("watts", h.watts())));
        o.set("trips", Json.list(r.trips(), FlowJson::drive));
        o.set("cascade", cascade(r.cascade()));
        o.set(
                "branches",
                Json.list(
                        r.carried(LEAST_AMPERES),
                        c -> Json.object()
                                .put("branch", c.name())
                                .put("kind", c.kind().name().toLowerCase(Locale.ROOT))
                                .put("amperes", c.amperes().magnitude())
                                .put("degrees", c.amperes().degrees())));
        o.set("assumptions", assumptions(r.assumptions()));
        o.set("cautions", strings(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }

    /** {@return what figures hang on} */
    public static ArrayNode assumptions(List<Assumption> all) {
        return Json.list(all, a -> Json.object().put("about", a.about()).put("said", a.said()));
    }

    private static ObjectNode point(Solution s, Solution.AtPoint p) {
        ObjectNode o = Json.object()
                .put("point", p.point().name())
                .put("place", p.point().place());
        ArrayNode pairs = o.putArray("pairs");
        for (int i = 0; i < p.across().size(); i++) {
            ObjectNode pair = pairs.addObject();
            pair.put(
                    "across",
                    s.circuit()
                            .branches()
                            .get(p.point().pairs().get(i).branch())
                            .name());
            pair.set("volts", volts(p.across().get(i)));
            pair.set("amperes", phasor(p.amperes().get(i)));
        }
        o.set("first-to-ground", p.firstToGround() == null ? null : volts(p.firstToGround()));
        o.set("second-to-ground", p.secondToGround() == null ? null : volts(p.secondToGround()));
        return o;
    }

    /** {@return a voltage: its state in a word, and magnitude and angle where they are known} */
    public static ObjectNode volts(Volts v) {
        ObjectNode o = v.floats() ? Json.object() : phasor(v.known());
        return o.put("state", v.floats() ? "floats" : v.fed() ? "known" : "no-recorded-source");
    }

    private static ObjectNode phasor(Complex c) {
        return Json.object().put("magnitude", c.magnitude()).put("degrees", c.degrees());
    }

    static ObjectNode drive(Drive d) {
        ObjectNode o = Json.object();
        o.put("unit", d.unit())
                .put("cause", d.cause().name().toLowerCase(Locale.ROOT))
                .put("at", d.at());
        o.put("amperes", d.amperes()).put("limit", d.limit());
        return times(o, d.time().earliest(), d.time().latest());
    }

    /** Without end is null: no unit is bound to open. */
    static ObjectNode times(ObjectNode o, double earliest, double latest) {
        return o.put("earliest-seconds", finite(earliest)).put("latest-seconds", finite(latest));
    }

    private static @Nullable Double finite(double x) {
        return Double.isInfinite(x) ? null : (Double) x;
    }

    private static ObjectNode cascade(Cascade c) {
        ObjectNode o = Json.object().put("whole", c.whole());
        o.set("must-trip", strings(List.copyOf(c.mustTrip())));
        o.set("may-trip", strings(List.copyOf(c.mayTrip())));
        o.set("ends", Json.list(c.ends(), e -> {
            ObjectNode end = Json.object();
            end.set("open", strings(e.open().stream().sorted().toList()));
            end.set(
                    "trips",
                    Json.list(
                            e.trips(),
                            t -> times(Json.object().put("unit", t.drive().unit()), t.earliest(), t.latest())));
            end.set("may-hold", Json.list(e.mayHold(), FlowJson::drive));
            return end;
        }));
        return o;
    }

    private static JsonNode strings(List<String> all) {
        return Json.tree(all);
    }

    /** {@return a time band in words} */
    static String said(TripTime t) {
        return seconds(t.earliest()) + " to " + (t.must() ? seconds(t.latest()) : "never");
    }

    static String seconds(double s) {
        if (Double.isInfinite(s)) {
            return "never";
        }
        return s < 1
                ? String.format(Locale.ROOT, "%.0f ms", s * 1000)
                : s < 120 ? String.format(Locale.ROOT, "%.0f s", s) : String.format(Locale.ROOT, "%.0f min", s / 60);
    }
}
