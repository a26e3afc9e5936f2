package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** The derived part of a house as rows. */
final class DerivedRows {
    /** What somebody opens, or what opens by itself. */
    private static final Set<ThingKind> OPENING =
            EnumSet.of(ThingKind.BREAKER, ThingKind.MAIN, ThingKind.POLE, ThingKind.DEVICE);

    private final Wiring wiring;
    private final RowBuilder rows;

    private DerivedRows(Wiring wiring, RowBuilder rows) {
        this.wiring = wiring;
        this.rows = rows;
    }

    /** Adds the rows of what was derived, after those of what was recorded. */
    static void add(Wiring wiring, RowBuilder rows) {
        DerivedRows d = new DerivedRows(wiring, rows);
        wiring.loadPoints().forEach(d::loadPoint);
        wiring.wires().forEach(d::wire);
        wiring.islands().forEach(d::island);
        d.crossings();
        d.losses();
        d.openRegions();
    }

    private void loadPoint(LoadPointWiring l) {
        int n = rows.node("LoadPoint", l.id());
        rows.set(n, "supply", l.supply());
        Map<Conductor, Basis> weakest = new TreeMap<>();
        for (Feed f : l.feeds()) {
            Map<String, Object> way = way(f.way(), f.terminal(), f.sureness());
            way.put("breaker", f.breaker());
            way.put("sourcePoles", f.sourcePoles());
            rows.tie(n, "FED_BY", rows.node("Pole", f.pole()), way);
            weakest.merge(Conductor.HOT, f.way().basis(), Basis::weaker);
        }
        for (Return r : l.returns()) {
            Map<String, Object> way = way(r.way(), r.terminal(), r.sureness());
            way.put("over", RowBuilder.word(r.over()));
            rows.tie(n, "RETURNS_OVER", rows.node("Bar", r.bar()), way);
            weakest.merge(Conductor.NEUTRAL, r.way().basis(), Basis::weaker);
        }
        for (Return r : l.grounds()) {
            Map<String, Object> way = way(r.way(), r.terminal(), r.sureness());
            rows.tie(n, "GROUNDED_OVER", rows.node("Bar", r.bar()), way);
            weakest.merge(Conductor.GROUND, r.way().basis(), Basis::weaker);
        }
        // Of wires, joints and sources the losses tell the same, in a fraction of the relationships.
        l.reliesOn().stream()
                .filter(r -> OPENING.contains(r.thing().kind()))
                .forEach(r -> rows.tie(
                        n,
                        "RELIES_ON",
                        rows.node(r.thing()),
                        "conductor",
                        r.conductor(),
                        "sureness",
                        r.sureness(),
                        "basis",
                        weakest.getOrDefault(r.conductor(), Basis.ASSUMED)));
        Basis hot = weakest.getOrDefault(Conductor.HOT, Basis.ASSUMED);
        l.protections()
                .forEach(p -> rows.tie(
                        n,
                        "PROTECTED_BY",
                        rows.node(p.by()),
                        "function",
                        p.function(),
                        "sureness",
                        p.sureness(),
                        "nearness",
                        p.nearness(),
                        "basis",
                        hot));
    }

    private static Map<String, Object> way(Way way, String terminal, Sureness sureness) {
        Map<String, Object> m = Hops.of(way);
        m.put("terminal", terminal);
        m.put("sureness", RowBuilder.word(sureness));
        m.put("basis", RowBuilder.word(way.basis()));
        m.put("throughUnknown", way.throughUnknown());
        return m;
    }

    private void wire(WireUse w) {
        int n = rows.node("Wire", w.wire());
        List<WireUse.Use> uses = w.uses().stream()
                .sorted(Comparator.comparing(WireUse.Use::sureness)
                        .thenComparing(WireUse.Use::conductor)
                        .thenComparing(u -> u.pole() == null ? "" : u.pole()))
                .toList();
        rows.set(n, "known", !uses.isEmpty());
        rows.set(n, "uses", uses.stream().map(DerivedRows::said).toList());
        for (WireUse.Use u : uses) {
            String property = RowBuilder.word(u.conductor());
            if (rows.get(n, property) == null) {
                rows.set(n, property, u.sureness());
            }
            if (u.pole() != null) {
                rows.tie(n, "HOT_OF", rows.node("Pole", u.pole()), "sureness", u.sureness());
            }
        }
    }

    private static String said(WireUse.Use u) {
        return RowBuilder.word(u.conductor()) + (u.pole() == null ? "" : " " + u.pole()) + " "
                + RowBuilder.word(u.sureness());
    }

    private void island(NeutralIsland i) {
        int n = rows.node("Island", i.id());
        rows.set(n, "poles", i.poles().size())
                .set(n, "loadPoints", i.loadPoints().size());
        i.wires().forEach(w -> rows.tie(rows.node("Wire", w), "JOINED_IN", n));
        i.landings().forEach(j -> rows.tie(n, "LANDS_ON", rows.node("Joint", j)));
        i.poles().forEach(p -> rows.tie(n, "CARRIES", rows.node("Pole", p)));
        i.loadPoints().forEach(l -> rows.tie(rows.node("LoadPoint", l), "RETURNS_ON", n));
    }

    private void crossings() {
        int number = 0;
        for (Crossing c : wiring.crossings()) {
            int n = rows.node("Crossing", "crossing-" + ++number);
            rows.set(n, "kind", c.kind()).set(n, "sureness", c.sureness());
            rows.set(n, "island", c.island()).set(n, "poles", c.poles());
            rows.set(n, "loadPoints", c.loadPoints()).set(n, "box", c.box());
            rows.set(n, "device", c.device());
            c.poles().forEach(p -> rows.tie(n, "CONCERNS", rows.node("Pole", p)));
            c.loadPoints().forEach(l -> rows.tie(n, "CONCERNS", rows.node("LoadPoint", l)));
            if (rows.has("Island", c.island())) {
                rows.tie(n, "ON_ISLAND", rows.node("Island", c.island()));
            }
            if (c.box() != null) {
                rows.tie(n, "PARTS_AT", RecordedRows.enclosure(wiring.house(), rows, c.box()));
            }
            if (c.device() != null) {
                rows.tie(n, "ACROSS", protective(c.device()));
            }
        }
    }

    private int protective(String name) {
        return rows.node(rows.has("Breaker", name) ? "Breaker" : "Device", name);
    }

    private void losses() {
        // Few rows are in many losses: to say each once is most of what there is to save here.
        Map<LossRow, String> words = new HashMap<>();
        Map<List<String>, List<Loss>> bySet = new LinkedHashMap<>();
        for (Loss l : wiring.losses()) {
            List<String> said = l.rows().stream()
                    .map(r -> words.computeIfAbsent(r, LossRow::toString))
                    .sorted()
                    .toList();
            bySet.computeIfAbsent(said, k -> new ArrayList<>()).add(l);
        }
        bySet.forEach((said, losses) -> {
            List<LossRow> set = losses.get(0).rows();
            int n = rows.node("Loss", Packed.digest(said.toString()).substring(0, 16));
            rows.set(n, "lost", (int)
                    set.stream().filter(r -> r.hot() == LossRow.Hot.LOST).count());
            for (LossRow r : set) {
                rows.tie(
                        n,
                        "CHANGES",
                        rows.node("LoadPoint", r.loadPoint()),
                        "hot",
                        r.hot(),
                        "neutral",
                        r.neutral(),
                        "ground",
                        r.ground(),
                        "sureness",
                        r.sureness());
            }
            losses.forEach(l -> lost(l, n));
        });
    }

    private void lost(Loss l, int loss) {
        Thing thing = l.thing();
        if (thing.kind() == ThingKind.WIRE_END) {
            int at = thing.name().lastIndexOf('@');
            long end = Long.parseLong(thing.name().substring(at + 1));
            int wire = rows.node("Wire", thing.name().substring(0, at));
            rows.tie(wire, "IF_LOST", loss, "mode", l.mode(), "end", end);
        } else {
            rows.tie(rows.node(thing), "IF_LOST", loss, "mode", l.mode());
        }
    }

    private void openRegions() {
        for (Wiring.OpenRegion o : wiring.openRegions()) {
            int n = rows.node("OpenRegion", o.id());
            rows.set(n, "boxes", o.boxes().size())
                    .set(n, "breakers", o.breakers().size());
            rows.set(n, "loadPoints", o.loadPoints().size());
            o.boxes().forEach(b -> rows.tie(n, "OPEN_AT", RecordedRows.enclosure(wiring.house(), rows, b)));
            o.breakers().forEach(b -> rows.tie(n, "MAY_JOIN", breaker(b)));
            o.loadPoints().forEach(l -> rows.tie(n, "MAY_JOIN", rows.node("LoadPoint", l)));
            o.cables().forEach(c -> rows.tie(n, "MAY_JOIN", rows.node("Cable", c)));
        }
    }

    private int breaker(String name) {
        @Nullable String label = rows.has("Breaker", name) ? "Breaker" : null;
        return label == null
                ? rows.node(new Thing(rows.has("Main", name) ? ThingKind.MAIN : ThingKind.BREAKER, name))
                : rows.node(label, name);
    }
}
