package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;

/** Turns a record into its netlist. */
final class NetBuilder {
    private final House house;
    private final Net net;

    private NetBuilder(House house) {
        this.house = house;
        this.net = new Net(house);
    }

    /**
     * {@return the netlist of a house}
     *
     * <p>In a house that is not wholly known, a panel with no live bus counts as fed by something that is not recorded.
     */
    static Net build(House house) {
        Net net = build(house, Set.of());
        if (!net.mayGraph().any) {
            return net;
        }
        Set<String> dead = new LinkedHashSet<>(house.panels().keySet());
        Regions regions = net.regions();
        BitSet live = new Trunk(net, regions, new LeverState(net)).live(new LeverState(net));
        live.stream().filter(v -> net.kind[v] == Net.Kind.BUS).forEach(v -> dead.remove(net.panel(v)));
        return dead.isEmpty() ? net : build(house, dead);
    }

    private static Net build(House house, Set<String> assumedFed) {
        NetBuilder b = new NetBuilder(house);
        b.net.assumedFed.addAll(assumedFed);
        b.cables();
        b.sources();
        for (Panel p : house.panels().values()) {
            PanelNet.add(b.net, p);
        }
        for (Box box : house.boxes().values()) {
            b.box(box);
        }
        for (Panel p : house.panels().values()) {
            b.panelJoints(p);
        }
        b.net.loadPoints.sort(Comparator.comparing(Net.LoadPoint::id));
        return b.net.freeze();
    }

    private void cables() {
        int number = -1;
        for (Cable c : house.cables().values()) {
            number++;
            Basis basis = c.about().basisOr(house.basis());
            Net.Wires named = new Net.Wires(c, net.size);
            net.wires.put(c.name(), named);
            String first = boxOf(c, 0);
            String second = boxOf(c, 1);
            for (int i = 0; i < c.wires().size(); i++) {
                int wire = net.add(Net.Kind.WIRE, named, "", basis);
                net.edge(wire, net.add(Net.Kind.WIRE_END, named, first, basis));
                net.edge(wire, net.add(Net.Kind.WIRE_END, named, second, basis));
                Arrays.fill(net.cable, wire, net.size, number);
            }
        }
    }

    private static String boxOf(Cable c, int end) {
        String box = c.ends().get(end).boxOrNull();
        return box == null ? "" : box;
    }

    private void sources() {
        for (Source s : house.sources().values()) {
            Basis basis = s.about().basisOr(house.basis());
            addSource(net, s.name(), s.system(), s.at() == null ? "" : s.at(), basis);
        }
    }

    static void addSource(Net net, String name, SourceSystem system, String box, Basis basis) {
        for (SourceSystem.Pole p : system.poles()) {
            String t = name + "." + p.terminal();
            net.byTerminal.put(t, net.add(Net.Kind.SOURCE_POLE, t, box, basis));
        }
        net.byTerminal.put(name + ".n", net.add(Net.Kind.SOURCE_NEUTRAL, name + ".n", box, basis));
        net.byTerminal.put(name + ".g", net.add(Net.Kind.SOURCE_GROUND, name + ".g", box, basis));
    }

    private void box(Box box) {
        Basis boxBasis = box.about().basisOr(house.basis());
        if (box.shell() == null || !box.shell().material().equals("none")) {
            net.metal.put(box.name(), net.add(Net.Kind.METAL, box.name(), box.name(), boxBasis));
        }
        for (Device d : box.devices().values()) {
            device(box, d, d.about().basisOr(boxBasis));
        }
        net.firstJoint.put(box.name(), net.size);
        for (Joint j : box.joints()) {
            Basis basis = j.about().basisOr(boxBasis);
            int v = net.add(Net.Kind.JOINT, at -> box.name() + ":" + firstSaid(j.members()), box.name(), basis);
            for (Ref r : j.members()) {
                int member = vertex(box.name(), r);
                if (member >= 0) {
                    net.edge(v, member);
                }
            }
        }
    }

    private void device(Box box, Device d, Basis basis) {
        DeviceKind kind = d.kind();
        Net.Placed own = new Net.Placed(d, net.size, net.size);
        for (DeviceKind.Terminal t : kind.terminals()) {
            int v = net.add(Net.Kind.TERMINAL, own, box.name(), basis);
            if (t.role() == DeviceKind.Role.GROUND || t.role() == DeviceKind.Role.METAL) {
                net.groundTerminals.set(v);
            } else if (t.role() == DeviceKind.Role.NEUTRAL) {
                net.neutralTerminals.set(v);
            }
        }
        for (DeviceKind.Tab t : kind.tabs()) {
            tab(box, own, t, basis);
        }
        int levers = net.levers.size();
        for (DeviceKind.Lever l : kind.levers()) {
            String name = l.name().equals("lever") ? d.name() : d.name() + "." + l.name();
            net.addLever(name, l.positions().size());
        }
        for (DeviceKind.Link l : kind.links()) {
            int a = terminal(own, l.a());
            int b = terminal(own, l.b());
            if (l.when() == DeviceKind.When.AS_LOAD) {
                net.loadEdges.add(new int[] {a, b});
                continue;
            }
            int v = link(box, own, a, b, basis);
            if (l.when() == DeviceKind.When.GUARDED) {
                net.sensors.set(v);
                net.lineSide.put(v, a);
            }
            if (l.when() == DeviceKind.When.LEVER && l.lever() != null) {
                onLever(v, l, kind.levers(), levers);
            }
        }
        for (DeviceKind.LoadPoint lp : kind.loadPoints()) {
            loadPoint(box, own, lp);
        }
        net.devices.put(d.name(), new Net.Placed(d, own.first(), net.size));
    }

    /** The link conducts where its lever stands in one of its positions; levers of a device are numbered from {@code first} on. */
    private void onLever(int link, DeviceKind.Link l, List<DeviceKind.Lever> levers, int first) {
        for (int k = 0; k < levers.size(); k++) {
            DeviceKind.Lever lever = levers.get(k);
            if (lever.name().equals(l.lever())) {
                long mask = 0;
                for (int i = 0; i < lever.positions().size(); i++) {
                    if (l.positions().contains(lever.positions().get(i))) {
                        mask |= 1L << i;
                    }
                }
                net.onLever(link, first + k, mask);
                return;
            }
        }
        throw new IllegalArgumentException("no lever " + l.lever());
    }

    private void loadPoint(Box box, Net.Placed own, DeviceKind.LoadPoint lp) {
        Device d = own.device();
        Ints terminals = new Ints(4);
        int[][] pairs = new int[lp.pairs().size()][];
        for (int i = 0; i < pairs.length; i++) {
            DeviceKind.Pair p = lp.pairs().get(i);
            pairs[i] = new int[] {terminal(own, p.a()), terminal(own, p.b())};
            addOnce(terminals, pairs[i][0]);
            addOnce(terminals, pairs[i][1]);
            net.loadEdges.add(pairs[i]);
        }
        int ground = lp.ground() == null ? -1 : terminal(own, lp.ground());
        String id = lp.name().isEmpty() ? d.name() : d.name() + "." + lp.name();
        net.loadPoints.add(
                new Net.LoadPoint(id, d.name(), box.name(), box.place(), terminals.toArray(), pairs, ground));
    }

    private static void addOnce(Ints to, int terminal) {
        for (int i = 0; i < to.size(); i++) {
            if (to.get(i) == terminal) {
                return;
            }
        }
        to.add(terminal);
    }

    /** Whether a tab is in; null where that is not known. */
    private @Nullable Boolean isTabIn(Box box, Device d, DeviceKind.Tab t) {
        Boolean said = d.tabs().get(t.name());
        if (said == null && !house.isComplete(box, Complete.JOINTS)) {
            return null;
        }
        return said == null ? t.madeIn() : said;
    }

    private void tab(Box box, Net.Placed own, DeviceKind.Tab t, Basis basis) {
        Boolean in = isTabIn(box, own.device(), t);
        int a = terminal(own, t.a());
        int b = terminal(own, t.b());
        if (in == null) {
            net.uncertainLinks.add(new int[] {a, b});
        } else if (in) {
            link(box, own, a, b, basis);
        }
    }

    private int link(Box box, Net.Placed own, int a, int b, Basis basis) {
        int v = net.add(Net.Kind.LINK, own, box.name(), basis);
        net.edge(a, v);
        net.edge(v, b);
        return v;
    }

    private static int terminal(Net.Placed own, String name) {
        int v = own.terminal(name);
        if (v < 0) {
            throw new IllegalArgumentException("device " + own.device().name() + " has no terminal " + name);
        }
        return v;
    }

    /** What is said of the member that comes first by name: what a joint is called by. */
    private static String firstSaid(List<Ref> members) {
        return members.stream().map(Ref::said).min(Comparator.naturalOrder()).orElseThrow();
    }

    /** The vertex of a member; -1 for the metal of a box that has none. */
    private int vertex(String box, Ref r) {
        if (r instanceof Ref.WireEnd e) {
            Net.Wires cable = net.wires.get(e.cable());
            return cable == null ? -1 : cable.end(e.wire(), e.end());
        }
        if (r instanceof Ref.DeviceTerminal t) {
            Net.Placed device = net.devices.get(t.device());
            return device == null ? -1 : device.terminal(t.terminal());
        }
        if (r instanceof Ref.SourceTerminal s) {
            return net.byTerminal.getOrDefault(s.source() + "." + s.terminal(), -1);
        }
        if (r instanceof Ref.PanelTerminal t) {
            return net.byTerminal.getOrDefault(box + "." + t.terminal(), -1);
        }
        return net.metal.getOrDefault(box, -1);
    }

    /** In a panel every wire on a terminal or bar is a joint of its own; terminals strapped together share one. */
    private void panelJoints(Panel p) {
        Basis panelBasis = p.about().basisOr(house.basis());
        for (Joint j : p.joints()) {
            Basis basis = j.about().basisOr(panelBasis);
            List<Ref> on = new ArrayList<>();
            List<Ref> landed = new ArrayList<>();
            j.members().forEach(r -> (r instanceof Ref.PanelTerminal ? on : landed).add(r));
            if (on.isEmpty()) {
                joint(p.name(), vertices(p, landed), landed, basis);
                continue;
            }
            Ints terminals = vertices(p, on);
            for (Ref r : landed) {
                int v = vertex(p.name(), r);
                if (v >= 0) {
                    Ints members = new Ints(terminals.size() + 1);
                    for (int i = 0; i < terminals.size(); i++) {
                        members.add(terminals.get(i));
                    }
                    members.add(v);
                    joint(p.name(), members, List.of(r), basis);
                }
            }
            strap(p, on, terminals, basis);
        }
    }

    private Ints vertices(Panel p, List<Ref> members) {
        Ints found = new Ints(members.size());
        for (Ref r : members) {
            int v = vertex(p.name(), r);
            if (v >= 0) {
                found.add(v);
            }
        }
        return found;
    }

    private void joint(String box, Ints members, List<Ref> called, Basis basis) {
        int j = net.add(Net.Kind.JOINT, at -> box + ":" + firstSaid(called), box, basis);
        for (int i = 0; i < members.size(); i++) {
            net.edge(j, members.get(i));
        }
    }

    private void strap(Panel p, List<Ref> on, Ints terminals, Basis basis) {
        if (on.size() < 2) {
            return;
        }
        boolean neutral = on.contains(new Ref.PanelTerminal("n"));
        boolean ground = on.contains(new Ref.PanelTerminal("g"));
        if (neutral && ground) {
            net.straps.add(p.name());
            return;
        }
        joint(p.name(), terminals, on, basis);
    }
}
