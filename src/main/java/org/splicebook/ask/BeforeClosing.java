package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.TestResult;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;

/** Before this cover is closed: what in here is still unknown, and which test settles it in two minutes? */
final class BeforeClosing {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "before-closing", "Before {box} is closed: what in it is still unknown, and what settles it?")
            .with("box", "a box or panel, for example bench")
            .columns("unknown", "test")
            .by(asked -> new BeforeClosing(asked).answer());

    private final Asked asked;
    private final House house;
    private final String box;
    private final List<Row> rows = new ArrayList<>();

    private BeforeClosing(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.box = asked.value("box");
    }

    private Answer answer() {
        wires();
        Box opened = house.boxes().get(box);
        if (opened != null) {
            box(opened);
        }
        Panel panel = house.panels().get(box);
        if (panel != null) {
            panel(panel);
        }
        loadPoints();
        return asked.answer(outcome(), rows);
    }

    private String outcome() {
        if (rows.isEmpty()) {
            return "Nothing in " + box + " is left open in the record. Tests of today are still to be made.";
        }
        return rows.size() + (rows.size() == 1 ? " thing" : " things") + " in " + box
                + " can be settled while it is open. Each takes a minute or two.";
    }

    private void wires() {
        Set<String> named = new TreeSet<>();
        joints().forEach(j -> j.members().forEach(m -> {
            if (m instanceof Ref.WireEnd e) {
                named.add(e.cable() + "." + e.wire());
            }
        }));
        boolean allListed = isComplete(Complete.JOINTS) || isComplete(Complete.LANDINGS);
        Set<Cable> cables = new java.util.LinkedHashSet<>();
        for (BoxWires.Here w : BoxWires.of(house, box)) {
            cables.add(w.cable());
            Basis basis = w.cable().about().basisOr(house.basis());
            if (w.presence() == BoxWires.Presence.ENDS && !named.contains(w.name()) && !allListed) {
                row(
                        w.name(),
                        basis,
                        "what it touches here",
                        "Look at its end: joined, on a screw, or capped. Record it as a joint.");
            }
            if (isOfNoKnownUse(w.name()) && !w.wire().metal()) {
                row(
                        w.name(),
                        basis,
                        "what it is: nothing that is recorded leads to a breaker, a neutral or a ground",
                        "Read it to ground and to a known neutral with a meter of low impedance, everything on.");
            }
        }
        for (Cable c : cables) {
            if (c.ends().stream().anyMatch(e -> !(e instanceof CableEnd.At))) {
                row(
                        c.name(),
                        c.about().basisOr(house.basis()),
                        "where its other end is",
                        "With it off and tested, put a tone on it and look for it in the boxes round about.");
            }
        }
    }

    private boolean isOfNoKnownUse(String wire) {
        return asked.wiring().wires().stream()
                .filter(u -> u.wire().equals(wire))
                .allMatch(u -> u.uses().stream().allMatch((WireUse.Use x) -> x.sureness() == Sureness.MAY));
    }

    private List<Joint> joints() {
        Box b = house.boxes().get(box);
        Panel p = house.panels().get(box);
        return b != null ? b.joints() : p != null ? p.joints() : List.of();
    }

    private boolean isComplete(Complete what) {
        Box b = house.boxes().get(box);
        Panel p = house.panels().get(box);
        return b != null ? house.isComplete(b, what) : p != null && house.isComplete(p, what);
    }

    private void box(Box b) {
        Basis basis = b.about().basisOr(house.basis());
        long listed = house.cables().values().stream()
                .filter(c ->
                        BoxWires.of(house, box).stream().anyMatch(w -> w.cable().equals(c)))
                .count();
        if (b.cableEntries() != null && b.cableEntries() != listed) {
            row(
                    box,
                    basis,
                    b.cableEntries() + " cables were counted entering, " + listed + " are recorded",
                    "Count the entries again and record each cable.");
        } else if (!isComplete(Complete.CABLES)) {
            row(
                    box,
                    basis,
                    "whether another cable enters",
                    "Count the cables that enter; if they are all recorded, mark it complete: [cables].");
        }
        if (!isComplete(Complete.JOINTS)) {
            row(
                    box,
                    basis,
                    "whether its joints are all recorded",
                    "Follow each wire to what it touches, then mark it complete: [cables, joints].");
        }
        b.devices().values().forEach(d -> device(b, d));
        for (Joint j : b.joints()) {
            joint(j, j.about().basisOr(basis));
        }
    }

    private void joint(Joint j, Basis basis) {
        boolean onDevice = j.members().stream().anyMatch(m -> m instanceof Ref.DeviceTerminal);
        long wires = j.members().stream().filter(m -> m instanceof Ref.WireEnd).count();
        String name = j.members().get(0).said();
        if (j.hold() == Joint.Hold.UNSAID && onDevice && wires > 1) {
            row(
                    name,
                    basis,
                    "whether the device's own screws join " + wires + " wires: taking it out would part them",
                    "Look: one pigtail to the device, or a wire on each screw.");
        }
        if (basis.compareTo(Basis.TESTED) < 0) {
            row(
                    name,
                    basis,
                    "whether this joint is as recorded: it is only " + basis.word(),
                    "Look at it now, and record it as seen.");
        }
    }

    private void device(Box b, Device d) {
        Basis basis = d.about().basisOr(b.about().basisOr(house.basis()));
        for (DeviceKind.Tab t : d.kind().tabs()) {
            if (!d.tabs().containsKey(t.name()) && !isComplete(Complete.JOINTS)) {
                row(
                        d.name(),
                        basis,
                        "whether its tab on the " + t.name() + " side is in: its halves may be on two breakers",
                        "Look between the two screws of that side: whole metal, or broken out.");
            }
        }
        if (d.kind().guard() != null && !isTested(d.name())) {
            row(
                    d.name(),
                    basis,
                    "whether it trips and resets: no passed test is recorded",
                    "Once power is back, press its test button with a lamp plugged in where it protects, and reset it.");
        }
    }

    private boolean isTested(String device) {
        List<TestResult> of =
                house.tests().stream().filter(t -> t.device().equals(device)).toList();
        return !of.isEmpty() && of.get(of.size() - 1).result().equals("passed");
    }

    private void panel(Panel p) {
        Basis basis = p.about().basisOr(house.basis());
        if (!isComplete(Complete.BREAKERS)) {
            row(
                    box,
                    basis,
                    "whether every breaker is recorded",
                    "Count the breakers, read each handle, mark it complete: [breakers].");
        }
        if (!isComplete(Complete.LANDINGS)) {
            row(
                    box,
                    basis,
                    "whether every wire on breakers and bars is recorded",
                    "For a qualified person, with the main off: follow each wire, mark it complete: [breakers, landings].");
        }
        for (Breaker b : p.breakers().values()) {
            if (b.label() == null || b.label().isBlank()) {
                row(
                        p.name() + "." + b.key(),
                        basis,
                        "what its label says: none is recorded",
                        "Read the directory, and write one.");
            }
        }
    }

    private void loadPoints() {
        for (LoadPointWiring l : asked.wiring().loadPoints()) {
            if (l.box().equals(box) && l.feeds().stream().noneMatch(f -> f.sureness() != Sureness.MAY)) {
                List<String> breakers =
                        l.feeds().stream().map(f -> f.breaker()).distinct().toList();
                row(
                        l.id(),
                        Basis.ASSUMED,
                        "which breaker feeds it"
                                + (breakers.isEmpty() ? "" : ": " + String.join(", ", breakers) + " are not excluded"),
                        "A lamp in it, lit; turn one breaker off, then on again: out only meanwhile shows that it hangs on that one.");
            }
        }
    }

    private void row(String subject, Basis basis, String unknown, String test) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("unknown", unknown);
        columns.put("test", test);
        rows.add(new Row(subject, Row.Status.POSSIBLE, basis, columns, List.of()));
    }
}
