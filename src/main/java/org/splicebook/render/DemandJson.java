package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Dwelling;
import org.splicebook.panelplan.Metering;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.WhatFits;

/** What a dwelling demands of its service, as JSON. Loads are in volt-amperes, currents in amperes, areas in square feet. */
public final class DemandJson {
    private DemandJson() {}

    /** {@return a study of a house} */
    public static ObjectNode write(String house, DemandStudy study) {
        Dwelling d = study.dwelling();
        ObjectNode o = Json.object()
                .put("house", house)
                .put("edition", study.edition())
                .put("volts", d.volts())
                .put("rating", d.rating())
                .put("area", d.area());
        o.set("loads", Json.list(d.loads(), DemandJson::load));
        o.set("asked", strings(d.asked()));
        o.set("assumed", strings(d.assumed()));
        o.set("demands", Json.list(study.demands(), DemandJson::demand));
        o.set("fits", Json.list(study.fits(), DemandJson::fit));
        o.set("cures", Json.list(study.cures(), DemandJson::cure));
        o.set("cautions", strings(Caution.forWhat(Leads.TO_A_WIRE)));
        Metering m = study.metering();
        if (m != null) {
            o.set("metered", IntervalText.json(m));
        }
        return o.put("advice", DemandText.ADVICE);
    }

    private static ObjectNode load(DemandLoad l) {
        return Json.object()
                .put("name", l.name())
                .put("kind", l.kind().word())
                .put("va", l.va())
                .put("new", l.isNew())
                .put("held-to", l.setPoint());
    }

    private static ObjectNode demand(Demand d) {
        ObjectNode o = Json.object()
                .put("method", d.method().word())
                .put("reading", d.reading())
                .put("edition", d.edition())
                .put("va", d.va())
                .put("amperes", d.amps())
                .put("least", d.least())
                .put("neutral", d.neutral())
                .put("verdict", d.verdict().word());
        o.set(
                "lines",
                Json.list(
                        d.lines(),
                        l -> Json.object()
                                .put("what", l.what())
                                .put("va", l.va())
                                .put("article", l.article())
                                .put("counts", l.counts())));
        o.set("notes", strings(d.notes()));
        o.set(
                "service",
                d.method() == Demand.Method.UNITS || !d.asked().isEmpty()
                        ? null
                        : ServiceSize.of(d).map(DemandJson::service).orElse(null));
        return o;
    }

    private static ObjectNode service(ServiceSize s) {
        return Json.object()
                .put("rating", s.rating())
                .put("copper", s.copper())
                .put("aluminium", s.aluminium())
                .put("electrode-of-copper", s.electrodeOfCopper())
                .put("electrode-of-aluminium", s.electrodeOfAluminium());
    }

    private static ObjectNode fit(WhatFits.Fit f) {
        return Json.object()
                .put("kind", f.kind().word())
                .put("method", f.method().word())
                .put("va", Math.floor(f.va()))
                .put("amperes", f.amps())
                .put("at-most", f.isAtMost())
                .put("unbounded", f.isUnbounded());
    }

    private static ObjectNode cure(WhatFits.Cure c) {
        return Json.object()
                .put("method", c.method().word())
                .put("said", c.said())
                .put("amperes", c.amps())
                .put("shown", c.isShown());
    }

    private static ArrayNode strings(List<String> all) {
        return Json.list(all, TextNode::valueOf);
    }
}
