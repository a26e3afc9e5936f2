package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** Relations as plain lines, each with a value, so that two derivations can be laid side by side. */
final class Facts {
    final TreeMap<String, String> lines = new TreeMap<>();

    void put(String line, Object value) {
        lines.put(line, value.toString());
    }

    /** {@return the lines of what was derived} */
    static Facts of(Wiring w) {
        Facts f = new Facts();
        w.loadPoints().forEach(l -> {
            f.put("supply " + l.id(), l.supply());
            l.feeds().forEach(x -> {
                f.put("feed " + l.id() + " " + x.pole() + " at " + x.terminal(), x.sureness());
                f.put("sources " + l.id() + " " + x.pole() + " at " + x.terminal(), sorted(x.sourcePoles()));
            });
            l.returns()
                    .forEach(x -> f.put(
                            "return " + l.id() + " " + x.over() + " " + x.bar() + " at " + x.terminal(), x.sureness()));
            l.grounds().forEach(x -> f.put("ground " + l.id() + " " + x.bar(), x.sureness()));
            l.reliesOn()
                    .forEach(x -> f.put(
                            "relies " + l.id() + " " + x.conductor() + " "
                                    + x.thing().kind() + " " + x.thing().name(),
                            x.sureness()));
            l.protections().forEach(x -> {
                String by = x.by().kind() + " " + x.by().name();
                f.put("protected " + l.id() + " " + x.function() + " " + by, x.sureness());
                f.put("nearness " + l.id() + " " + x.function() + " " + by, x.nearness());
            });
        });
        for (WireUse u : w.wires()) {
            u.uses()
                    .forEach(x -> f.put(
                            "use " + u.wire() + " " + x.conductor() + (x.pole() == null ? "" : " " + x.pole()),
                            x.sureness()));
        }
        for (NeutralIsland i : w.islands()) {
            f.island(i.id(), i.landings(), i.wires(), i.poles(), i.loadPoints());
        }
        for (Crossing c : w.crossings()) {
            if (c.kind() == CrossingKind.NEUTRAL_TO_GROUND) {
                f.put("neutral-to-ground " + c.box(), "");
            } else if (c.kind() == CrossingKind.ACROSS_PROTECTION) {
                c.loadPoints().forEach(l -> f.put("crossing ACROSS_PROTECTION " + c.device() + " load " + l, ""));
            } else {
                f.crossing(c.kind(), c.island(), c.poles(), c.loadPoints());
            }
        }
        for (Loss l : w.losses()) {
            for (LossRow r : l.rows()) {
                f.put(
                        "loss " + l.mode() + " " + l.thing().kind() + " "
                                + l.thing().name() + ": " + r.loadPoint(),
                        r.hot() + "/" + r.neutral() + "/" + r.ground());
            }
        }
        return f;
    }

    void crossing(CrossingKind kind, String island, Iterable<String> poles, Iterable<String> loads) {
        poles.forEach(p -> put("crossing " + kind + " " + island + " pole " + p, ""));
        loads.forEach(l -> put("crossing " + kind + " " + island + " load " + l, ""));
    }

    void island(
            String id,
            Iterable<String> landings,
            Iterable<String> wires,
            Iterable<String> poles,
            Iterable<String> loads) {
        landings.forEach(x -> put("island " + id + " landing " + x, ""));
        wires.forEach(x -> put("island " + id + " wire " + x, ""));
        poles.forEach(x -> put("island " + id + " pole " + x, ""));
        loads.forEach(x -> put("island " + id + " load " + x, ""));
    }

    private static String sorted(List<String> l) {
        return l.stream().sorted().toList().toString();
    }

    /** {@return what differs, one line each: what the oracle says, what was derived} */
    static List<String> differences(Facts truth, Facts derived) {
        List<String> out = new ArrayList<>();
        for (Map.Entry<String, String> e : truth.lines.entrySet()) {
            String other = derived.lines.get(e.getKey());
            if (!e.getValue().equals(other)) {
                out.add(e.getKey() + ": oracle " + said(e.getValue()) + ", derived " + said(other));
            }
        }
        for (Map.Entry<String, String> e : derived.lines.entrySet()) {
            if (!truth.lines.containsKey(e.getKey())) {
                out.add(e.getKey() + ": oracle none, derived " + said(e.getValue()));
            }
        }
        return out;
    }

    private static String said(String value) {
        return value == null ? "none" : value.isEmpty() ? "so" : value;
    }
}
