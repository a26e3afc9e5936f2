package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Liveness;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** That breaker is off: why may something in this box still be live? */
final class StillLive {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "still-live", "{breaker} is off. Why may something in {box} still be live?")
            .with("breaker", "a breaker that is off, for example main.5; what opens with it is taken as off too")
            .with("box", "a box or panel, for example bench")
            .columns("from", "because")
            .by(asked -> new StillLive(asked).answer());

    private final Asked asked;
    private final House house;
    private final String box;
    private final Set<String> off;
    private final List<BoxWires.Here> wires;
    private final List<Row> rows = new ArrayList<>();
    private final Set<String> told = new TreeSet<>();

    private StillLive(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.box = asked.value("box");
        this.off = Breakers.openedWith(house, asked.value("breaker"));
        this.wires = BoxWires.of(house, box);
    }

    private Answer answer() {
        Map<String, List<Liveness.LiveWire>> live = Liveness.withOff(house, off);
        wires.forEach(w -> live.getOrDefault(w.name(), List.of()).forEach(l -> live(w, l)));
        wires.forEach(this::carries);
        wires.forEach(this::possible);
        panel();
        asked.wiring().openRegions().forEach(this::open);
        return asked.answer(outcome(), rows, notProven(), wouldSettle());
    }

    private void live(BoxWires.Here w, Liveness.LiveWire l) {
        StringBuilder because = new StringBuilder(
                l.through().isEmpty()
                        ? "hot of another breaker"
                        : "live through " + String.join(" and ", l.through()) + ", with its own feed lost");
        if (w.looksHarmless()) {
            because.append("; ").append(w.wire().colour()).append(", and hot all the same");
        }
        if (w.presence() == BoxWires.Presence.PASSES) {
            because.append("; its cable runs through uncut");
        }
        boolean isSure = w.presence() != BoxWires.Presence.MAY_END;
        Reason way = Reason.of("From " + w.name(), l.way(), house);
        row(w.name(), isSure, l.way().basis(), l.breaker(), because.toString(), List.of(way));
    }

    private void carries(BoxWires.Here w) {
        for (NeutralIsland i : asked.wiring().islands()) {
            if (!i.wires().contains(w.name())) {
                continue;
            }
            i.poles().stream()
                    .map(p -> breakerOf(p))
                    .filter(b -> !off.contains(b))
                    .distinct()
                    .forEach(b -> row(
                            w.name(),
                            w.presence() != BoxWires.Presence.MAY_END,
                            w.cable().about().basisOr(house.basis()),
                            b,
                            "carries the return of " + list(returning(i, b))
                                    + ": near 0 V while joined, full voltage once its splice is parted",
                            ways(i, b)));
        }
    }

    private List<String> returning(NeutralIsland island, String breaker) {
        return asked.wiring().loadPoints().stream()
                .filter(l -> island.loadPoints().contains(l.id())
                        && l.feeds().stream()
                                .anyMatch(f -> f.breaker().equals(breaker) && f.sureness() != Sureness.MAY))
                .map(l -> l.id())
                .toList();
    }

    private List<Reason> ways(NeutralIsland island, String breaker) {
        List<String> points = returning(island, breaker);
        return asked.wiring().loadPoints().stream()
                .filter(l -> points.contains(l.id()))
                .flatMap(l -> l.returns().stream())
                .filter(r -> r.sureness() != Sureness.MAY)
                .limit(1)
                .map(r -> Reason.of("From " + r.terminal(), r.way(), house))
                .toList();
    }

    private void possible(BoxWires.Here w) {
        for (WireUse u : asked.wiring().wires()) {
            if (!u.wire().equals(w.name())) {
                continue;
            }
            for (WireUse.Use use : u.uses()) {
                String pole = use.pole();
                if (use.conductor() == Conductor.HOT && pole != null && !off.contains(breakerOf(pole))) {
                    row(
                            w.name(),
                            false,
                            w.cable().about().basisOr(house.basis()),
                            breakerOf(pole),
                            "may be hot of it, over something that is not recorded",
                            List.of());
                }
            }
        }
    }

    /** What no breaker of a panel takes away. */
    private void panel() {
        Panel panel = house.panels().get(box);
        if (panel != null) {
            String supply = panel.supply().isEmpty() ? "its supply" : String.join(" and ", panel.supply());
            row(
                    "lugs of " + box,
                    true,
                    panel.about().basisOr(house.basis()),
                    supply,
                    "the supply side of a panel stays live with every breaker in it off, its main too",
                    List.of());
        }
    }

    private void open(Wiring.OpenRegion region) {
        if (region.boxes().contains(box)) {
            region.breakers().stream()
                    .filter(b -> !off.contains(b) && told.stream().noneMatch(t -> t.endsWith(" " + b)))
                    .forEach(b -> row(
                            "something not recorded",
                            false,
                            Basis.ASSUMED,
                            b,
                            "is not excluded: what is in this box is not wholly known",
                            List.of()));
        }
    }

    private void row(String subject, boolean isShown, Basis basis, String breaker, String because, List<Reason> ways) {
        if (!told.add(subject + " " + breaker)) {
            return;
        }
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("from", Breakers.said(house, breaker));
        columns.put("because", because);
        Row.Status status = isShown ? Row.Status.SHOWN : Row.Status.POSSIBLE;
        rows.add(new Row(subject, status, basis, columns, Reason.say(ways), ways));
    }

    private String outcome() {
        Set<String> breakers = rows.stream()
                .map(r -> String.valueOf(r.columns().get("from")))
                .collect(Collectors.toCollection(TreeSet::new));
        String opened = String.join(" and ", off);
        return rows.isEmpty()
                ? "Nothing else is recorded that would keep a wire in " + box + " live with " + opened
                        + " off. If one reads live, the record is wrong, or the breaker did not open."
                : "With " + opened + " off, " + box + " may still be live from " + String.join(", ", breakers) + ".";
    }

    private List<String> notProven() {
        List<String> all = new ArrayList<>();
        all.add("That " + String.join(" and ", off)
                + " opened: a breaker can fail closed. Measure at its own terminal.");
        all.add(
                "That a reading is not a ghost: a contactless probe or a meter of high impedance can show volts on a wire"
                        + " that only runs beside a live one. A lamp or a meter of low impedance settles it.");
        return all;
    }

    private List<String> wouldSettle() {
        return rows.isEmpty()
                ? List.of()
                : List.of(
                        "Turn off what is listed, one after the other, and read after each: the wire that dies hangs on it.");
    }

    private String breakerOf(String pole) {
        return Breakers.ofPole(house, pole);
    }

    private static String list(List<String> names) {
        return names.isEmpty() ? "it" : String.join(", ", names);
    }
}
