package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.Wire;

/** Turns a record into its circuit. */
final class CircuitBuilder {
    final House house;
    final List<String> nodes = new ArrayList<>();
    final Map<String, Integer> nodeByName = new HashMap<>();
    final List<Branch> branches = new ArrayList<>();
    final Map<String, Integer> branchByName = new HashMap<>();
    final List<LoadPoint> loadPoints = new ArrayList<>();
    final List<Sensor> sensors = new ArrayList<>();
    final List<CircuitSource> sources = new ArrayList<>();
    final Map<String, List<String>> levers = new LinkedHashMap<>();
    final Set<String> gates = new LinkedHashSet<>();
    final Set<String> openAsFound = new LinkedHashSet<>();
    final List<Assumption> assumptions = new ArrayList<>();
    final Set<Integer> bars = new HashSet<>();
    /** Ohms that were measured, by branch: they hold in the ideal case too. */
    final Map<Integer, Double> measured = new HashMap<>();

    private CircuitBuilder(House house) {
        this.house = house;
    }

    /**
     * {@return the circuit of a house}
     *
     * <p>A panel that no recorded source reaches counts as fed by something not recorded, where something about its feed is not known.
     */
    static Circuit build(House house) {
        CircuitBuilder b = build(house, Set.of());
        Set<String> unfed = new UnfedPanels(b).find();
        return new Circuit(unfed.isEmpty() ? b : build(house, unfed));
    }

    private static CircuitBuilder build(House house, Set<String> assumedFed) {
        CircuitBuilder b = new CircuitBuilder(house);
        b.node(Circuit.EARTH);
        house.cables().values().forEach(b::cable);
        SourceCircuit sources = new SourceCircuit(b);
        house.sources().values().forEach(sources::add);
        for (Panel p : house.panels().values()) {
            PanelCircuit.add(b, p, sources, assumedFed.contains(p.name()));
        }
        for (Box box : house.boxes().values()) {
            b.box(box);
        }
        for (Panel p : house.panels().values()) {
            b.panelJoints(p);
        }
        b.openEnds();
        return b;
    }

    private void openEnds() {
        for (Cable c : house.cables().values()) {
            boolean open = c.wires().stream().anyMatch(w -> isOpen(c, w, 0) || isOpen(c, w, 1));
            if (open) {
                assume(c.name(), "an end not found or not looked at, taken as touching nothing");
            }
        }
        for (Box box : house.boxes().values()) {
            if (!house.isComplete(box, Complete.JOINTS)) {
                assume(box.name(), "not marked complete, taken as holding only what is listed");
            }
        }
        for (Panel p : house.panels().values()) {
            if (!house.isComplete(p, Complete.LANDINGS)) {
                assume(p.name(), "not marked complete, taken as holding only what is listed");
            }
        }
    }

    /** Whether it is not known what an end of a wire touches. */
    boolean isOpen(Cable c, Wire w, int end) {
        if (branchByName.containsKey(c.name() + "." + w.name() + "@" + (end + 1))) {
            return false;
        }
        String at = c.ends().get(end).boxOrNull();
        if (at == null) {
            return true;
        }
        Box box = house.boxes().get(at);
        Panel panel = house.panels().get(at);
        return box != null
                ? !house.isComplete(box, Complete.JOINTS)
                : panel == null || !house.isComplete(panel, Complete.LANDINGS);
    }

    int node(String name) {
        Integer known = nodeByName.get(name);
        if (known != null) {
            return known;
        }
        nodeByName.put(name, nodes.size());
        nodes.add(name);
        return nodes.size() - 1;
    }

    /** A node at which a branch circuit ends. */
    int bar(String name) {
        int node = node(name);
        bars.add(node);
        return node;
    }

    int at(String name) {
        return Objects.requireNonNull(nodeByName.get(name), name);
    }

    int branch(String name, Branch.Kind kind, int from, int to, @Nullable Gate gate, double ohms) {
        return branch(new Branch(name, kind, from, to, gate, ohms, 0, 0));
    }

    int branch(Branch b) {
        branchByName.putIfAbsent(b.name(), branches.size());
        branches.add(b);
        if (b.gate() != null && !b.gate().isLever()) {
            gates.add(b.gate().thing());
            if (b.gate().part() != null) {
                gates.add(b.gate().part());
            }
        }
        return branches.size() - 1;
    }

    void assume(String about, String said) {
        assumptions.add(new Assumption(about, said));
    }

    private void cable(Cable c) {
        boolean known = c.length() != null;
        double metres = known ? Objects.requireNonNull(c.length()).base() : Tables.number("silent", "length-m");
        if (!known && c.wires().stream().anyMatch(w -> w.ohms() == null)) {
            assume(c.name(), "length not recorded, taken as " + Tables.text("silent", "length-m") + " m");
        }
        for (Wire w : c.wires()) {
            String name = c.name() + "." + w.name();
            int a = node(name + "@1");
            int b = node(name + "@2");
            if (w.ohms() != null) {
                measured.put(
                        branch(name, Branch.Kind.WIRE, a, b, null, w.ohms().base()),
                        w.ohms().base());
                continue;
            }
            Conductor of = conductor(c, w);
            branch(new Branch(
                    name,
                    Branch.Kind.WIRE,
                    a,
                    b,
                    null,
                    of.ohmsPerMetre() * metres,
                    of.reactancePerMetre() * metres,
                    of.perDegree()));
        }
    }

    private Conductor conductor(Cable c, Wire w) {
        if (w.metal()) {
            assume(
                    c.name(),
                    "resistance of its metal taken as typical of " + c.kind().word());
            return Conductor.metal(c);
        }
        if (w.size() == null) {
            assume(c.name(), "wire size not recorded, taken as " + Tables.text("silent", "size"));
        }
        if (w.material() == null) {
            assume(c.name(), "wire material not recorded, taken as " + Tables.text("silent", "material"));
        }
        return Conductor.of(w.size() == null ? Tables.text("silent", "size") : w.size(), w.material());
    }

    private void box(Box box) {
        if (box.shell() == null || !box.shell().material().equals("none")) {
            node(box.name() + ".box");
        }
        box.devices().values().forEach(d -> DeviceCircuit.add(this, box, d));
        for (Joint j : box.joints()) {
            joint(box.name(), j, null, j.members());
        }
    }

    /** In a panel every wire on a terminal or bar is a joint of its own; terminals strapped together are linked. */
    private void panelJoints(Panel p) {
        for (Joint j : p.joints()) {
            List<Integer> terminals = new ArrayList<>();
            List<Ref> landed = new ArrayList<>();
            for (Ref r : j.members()) {
                Integer terminal =
                        r instanceof Ref.PanelTerminal t ? nodeByName.get(p.name() + "." + t.terminal()) : null;
                if (terminal != null) {
                    terminals.add(terminal);
                } else if (!(r instanceof Ref.PanelTerminal)) {
                    landed.add(r);
                }
            }
            for (int i = 1; i < terminals.size(); i++) {
                String name = p.name() + ":" + nodes.get(terminals.get(0)) + "-" + nodes.get(terminals.get(i));
                branch(name, Branch.Kind.LINK, terminals.get(0), terminals.get(i), null, arm());
            }
            joint(p.name(), j, terminals.isEmpty() ? null : terminals.get(0), landed);
        }
    }

    /** A joint: its node (or the terminal that it is on) with an arm to each member. */
    private void joint(String box, Joint j, @Nullable Integer on, List<Ref> members) {
        int joint = on != null
                ? on
                : node(box + ":"
                        + Collections.min(j.members().stream().map(Ref::said).toList()));
        for (Ref r : members) {
            Integer member = member(box, r);
            if (member == null) {
                continue;
            }
            String name = box + ":" + r.said();
            nodeByName.putIfAbsent(name, joint);
            int arm = branch(name, Branch.Kind.ARM, joint, member, null, arm());
            if (r instanceof Ref.WireEnd) {
                branchByName.putIfAbsent(nodes.get(member), arm);
            }
        }
    }

    private @Nullable Integer member(String box, Ref r) {
        if (r instanceof Ref.WireEnd e) {
            return nodeByName.get(e.cable() + "." + e.wire() + "@" + (e.end() + 1));
        }
        return nodeByName.get(r instanceof Ref.BoxMetal ? box + ".box" : r.said());
    }

    static double arm() {
        return Tables.number("contact", "arm");
    }

    /** {@return the source of that name, or null} */
    @Nullable
    Source source(String name) {
        return house.sources().get(name);
    }
}
