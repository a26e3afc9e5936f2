package org.splicebook.survey;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.Fault;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;

/** What can have been joined wrongly in a box: a wire under another cap with wires of its colour, two whites exchanged, two caps of whites in one. */
final class WrongSplices {
    /** Takes each fault. */
    @FunctionalInterface
    interface Each {
        void take(FaultKind kind, List<String> places, List<Fault> faults, List<String> opened);
    }

    private static final String WHITE = "white";

    private final Circuit circuit;

    WrongSplices(Circuit circuit) {
        this.circuit = circuit;
    }

    /** A wire end in a joint: the branch that holds it, the node of the end, its colour, and the joint's node. */
    private record Held(String arm, String end, String colour, String joint) {}

    void each(Each each) {
        for (Box box : circuit.house().boxes().values()) {
            Map<String, List<Held>> joints = joints(box);
            List<String> names = List.copyOf(joints.keySet());
            for (int i = 0; i < names.size(); i++) {
                for (int j = 0; j < names.size(); j++) {
                    List<Held> here = Objects.requireNonNull(joints.get(names.get(i)));
                    List<Held> there = Objects.requireNonNull(joints.get(names.get(j)));
                    if (i != j) {
                        moved(here, there, each);
                    }
                    if (i < j) {
                        whites(here, there, each);
                    }
                }
            }
        }
    }

    private static void moved(List<Held> here, List<Held> there, Each each) {
        for (Held h : here) {
            if (there.stream().anyMatch(t -> t.colour.equals(h.colour))) {
                String joint = there.get(0).joint;
                each.take(
                        FaultKind.WRONG_SPLICE,
                        List.of(h.arm, there.get(0).arm),
                        List.of(new Fault.Open(h.arm), new Fault.Touch(h.end, joint, Suspects.JOINED_OHMS)),
                        List.of());
            }
        }
    }

    private static void whites(List<Held> here, List<Held> there, Each each) {
        List<Held> some = here.stream().filter(h -> h.colour.equals(WHITE)).toList();
        List<Held> others = there.stream().filter(h -> h.colour.equals(WHITE)).toList();
        if (some.isEmpty() || others.isEmpty()) {
            return;
        }
        each.take(
                FaultKind.NEUTRALS_JOINED,
                List.of(some.get(0).arm, others.get(0).arm),
                List.of(new Fault.Touch(here.get(0).joint, there.get(0).joint, Suspects.JOINED_OHMS)),
                List.of());
        for (Held a : some) {
            for (Held b : others) {
                each.take(
                        FaultKind.CROSSED,
                        List.of(a.arm, b.arm),
                        List.of(
                                new Fault.Open(a.arm),
                                new Fault.Open(b.arm),
                                new Fault.Touch(a.end, b.joint, Suspects.JOINED_OHMS),
                                new Fault.Touch(b.end, a.joint, Suspects.JOINED_OHMS)),
                        List.of());
            }
        }
    }

    private Map<String, List<Held>> joints(Box box) {
        Map<String, List<Held>> joints = new LinkedHashMap<>();
        for (Joint j : box.joints()) {
            for (Ref r : j.members()) {
                if (r instanceof Ref.WireEnd e) {
                    String arm = box.name() + ":" + r.said();
                    String end = e.cable() + "." + e.wire() + "@" + (e.end() + 1);
                    Integer branch = circuit.findBranch(arm);
                    if (branch != null && circuit.findNode(end) != null) {
                        Branch b = circuit.branches().get(branch);
                        String joint = circuit.nodes().get(b.from());
                        joints.computeIfAbsent(joint, k -> new ArrayList<>()).add(new Held(arm, end, colour(e), joint));
                    }
                }
            }
        }
        return joints;
    }

    private String colour(Ref.WireEnd e) {
        Cable cable = circuit.house().cables().get(e.cable());
        return cable == null
                ? ""
                : cable.wires().stream()
                        .filter(w -> w.name().equals(e.wire()))
                        .map(Wire::colour)
                        .map(c -> c.toLowerCase(Locale.ROOT))
                        .findFirst()
                        .orElse("");
    }
}
