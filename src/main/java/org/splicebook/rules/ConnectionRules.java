package org.splicebook.rules;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;

/** What holds wires together, and what holds an end that touches nothing. */
final class ConnectionRules {
    private ConnectionRules() {}

    static void add(Map<String, Rule> all) {
        all.put("copper-and-aluminium-together", ConnectionRules::mixed);
        all.put("push-in-connection", ConnectionRules::pushIn);
        all.put("connector-not-made-for-it", ConnectionRules::connector);
        all.put("open-wire-end", ConnectionRules::openEnd);
    }

    private static void mixed(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            for (Joint j : b.joints()) {
                Set<Wire.Material> materials = new LinkedHashSet<>();
                f.wiresIn(j).forEach(w -> {
                    if (!w.wire().metal() && w.wire().material() != null) {
                        materials.add(w.wire().material());
                    }
                });
                if (materials.contains(Wire.Material.COPPER) && materials.size() > 1) {
                    boolean known = j.by() != null;
                    boolean right = j.by() == Joint.By.CRIMP;
                    if (!right) {
                        out.found(
                                        known && j.by() != Joint.By.LEVER && j.by() != Joint.By.OTHER,
                                        Facts.said(b.name(), j),
                                        "Copper and aluminium touch"
                                                + (j.by() == null
                                                        ? "; by what is not recorded."
                                                        : " under a " + j.by().word() + " connection."))
                                .in(b.name())
                                .add();
                    }
                }
            }
        }
    }

    private static void pushIn(Facts f, Findings out) {
        Set<String> untold = new TreeSet<>();
        for (Box b : f.house().boxes().values()) {
            for (Joint j : b.joints()) {
                boolean device = j.members().stream().anyMatch(r -> r instanceof Ref.DeviceTerminal);
                if (j.by() == null
                        && j.hold() != Joint.Hold.SPLICE
                        && j.hold() != Joint.Hold.TAIL
                        && mayBePushedIn(f, j)) {
                    untold.add(b.name());
                }
                if (j.by() == Joint.By.PUSH_IN
                        && device
                        && j.hold() != Joint.Hold.SPLICE
                        && j.hold() != Joint.Hold.TAIL) {
                    out.found(
                                    Facts.said(b.name(), j),
                                    "Wires are pushed into the back of a device: such connections loosen with load and age.")
                            .in(b.name())
                            .add();
                }
            }
        }
        if (!untold.isEmpty()) {
            out.asked(
                            "house",
                            "How are wires held on the devices in " + CircuitRules.some(List.copyOf(untold))
                                    + ": under screws, or pushed into the back?")
                    .add();
        }
    }

    /** Backs of receptacles and switches take 14 AWG only; what is not sized may be that. */
    private static boolean mayBePushedIn(Facts f, Joint j) {
        boolean small = f.wiresIn(j).stream()
                .anyMatch(w -> !w.wire().metal()
                        && (w.wire().size() == null || w.wire().size().equals("14"))
                        && w.wire().material() != Wire.Material.ALUMINIUM);
        return small
                && j.members().stream().anyMatch(r -> {
                    Facts.InBox d = r instanceof Ref.DeviceTerminal t ? f.device(t.device()) : null;
                    return d != null
                            && (d.family() == DeviceKind.Family.RECEPTACLE || d.family() == DeviceKind.Family.SWITCH);
                });
    }

    private static void connector(Facts f, Findings out) {
        Set<String> untold = new TreeSet<>();
        for (Box b : f.house().boxes().values()) {
            for (Joint j : b.joints()) {
                boolean aluminium = f.wiresIn(j).stream()
                        .anyMatch(w -> w.wire().material() == Wire.Material.ALUMINIUM
                                && !w.wire().metal());
                boolean spliced = j.hold() == Joint.Hold.SPLICE || j.hold() == Joint.Hold.TAIL;
                long wires =
                        f.wiresIn(j).stream().filter(w -> !w.wire().metal()).count();
                if (j.by() == null && spliced && wires > 1) {
                    untold.add(b.name());
                }
                if (j.by() == Joint.By.OTHER || (aluminium && j.by() == Joint.By.PUSH_IN)) {
                    out.found(Facts.said(b.name(), j), "Joined in a way that no listed connector is made for.")
                            .in(b.name())
                            .add();
                }
            }
        }
        if (!untold.isEmpty()) {
            out.asked("house", "By what are wires joined in " + CircuitRules.some(List.copyOf(untold)) + "?")
                    .add();
        }
    }

    /** In a box whose joints are all listed, a wire end in none of them touches nothing and is not capped. */
    private static void openEnd(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            boolean whole = f.house().isComplete(b, Complete.JOINTS);
            Set<String> named = new TreeSet<>();
            b.joints()
                    .forEach(j -> j.members().forEach(r -> {
                        if (r instanceof Ref.WireEnd e) {
                            named.add(e.cable() + "." + e.wire());
                        }
                    }));
            for (Cable c : f.cablesAt(b.name())) {
                boolean ends = c.ends().stream().anyMatch(e -> b.name().equals(e.boxOrNull()));
                if (!ends || named.isEmpty()) {
                    continue;
                }
                for (Wire w : c.wires()) {
                    String name = c.name() + "." + w.name();
                    if (w.metal() || named.contains(name)) {
                        continue;
                    }
                    boolean live = f.isShown(name, Conductor.HOT);
                    if (whole) {
                        out.found(
                                        name + " in " + b.name(),
                                        "It touches nothing and is not capped" + (live ? ", and it is live." : "."))
                                .in(b.name())
                                .add();
                    } else if (live) {
                        out.asked(name + " in " + b.name(), "It is live. What does it touch here, or is it capped?")
                                .in(b.name())
                                .add();
                    }
                }
            }
        }
    }
}
