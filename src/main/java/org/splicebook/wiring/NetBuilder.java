package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
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
import org.splicebook.record.Wire;

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
        live.stream().filter(v -> net.kind[v] == Net.Kind.BUS).forEach(v -> dead.remove(net.panels.get(v)));
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
        b.net.loadPoints.sort(java.util.Comparator.comparing(Net.LoadPoint::id));
        return b.net.freeze();
    }

    private void cables() {
        int number = -1;
        for (Cable c : house.cables().values()) {
            number++;
            Basis basis = c.about().basisOr(house.basis());
            for (Wire w : c.wires()) {
                String name = c.name() + "." + w.name();
                int wire = net.addOfCable(number, Net.Kind.WIRE, name, "", basis);
                for (int end = 0; end < 2; end++) {
                    String box = c.ends().get(end).boxOrNull();
                    String endName = name + "@" + (end + 1);
                    int e = net.addOfCable(number, Net.Kind.WIRE_END, endName, box == null ? "" : box, basis);
                    net.edge(wire, e);
                    net.byWireEnd.put(endName, e);
                }
            }
        }
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
            net.byTerminal.put(box.name() + "/box", net.add(Net.Kind.METAL, box.name(), box.name(), boxBasis));
        }
        for (Device d : box.devices().values()) {
            device(box, d, d.about().basisOr(boxBasis));
        }
        for (Joint j : box.joints()) {
            Basis basis = j.about().basisOr(boxBasis);
            joint(box.name(), memberVertices(box.name(), j), memberNames(j), basis);
        }
    }

    private void device(Box box, Device d, Basis basis) {
        DeviceKind kind = d.kind();
        List<Integer> own = net.deviceVertices.computeIfAbsent(d.name(), k -> new ArrayList<>());
        for (DeviceKind.Terminal t : kind.terminals()) {
            String name = d.name() + "." + t.name();
            int v = net.add(Net.Kind.TERMINAL, name, box.name(), basis);
            net.byTerminal.put(name, v);
            own.add(v);
            if (t.role() == DeviceKind.Role.GROUND || t.role() == DeviceKind.Role.METAL) {
                net.groundTerminals.add(v);
            } else if (t.role() == DeviceKind.Role.NEUTRAL) {
                net.neutralTerminals.add(v);
            }
        }
        for (DeviceKind.Tab t : kind.tabs()) {
            tab(box, d, t, basis);
        }
        Map<String, Integer> levers = kind.levers().isEmpty() ? Map.of() : new java.util.HashMap<>();
        for (DeviceKind.Lever l : kind.levers()) {
            String name = l.name().equals("lever") ? d.name() : d.name() + "." + l.name();
            levers.put(l.name(), net.addLever(name, l.positions().size()));
        }
        for (DeviceKind.Link l : kind.links()) {
            int a = terminal(d, l.a());
            int b = terminal(d, l.b());
            if (l.when() == DeviceKind.When.AS_LOAD) {
                net.loadEdges.add(new int[] {a, b});
                continue;
            }
            int v = link(box, d, a, b, basis);
            if (l.when() == DeviceKind.When.GUARDED) {
                net.sensors.add(v);
                net.lineSide.put(v, a);
            }
            if (l.when() == DeviceKind.When.LEVER && l.lever() != null) {
                DeviceKind.Lever lever = kind.levers().stream()
                        .filter(x -> x.name().equals(l.lever()))
                        .findFirst()
                        .orElseThrow();
                long mask = 0;
                for (int i = 0; i < lever.positions().size(); i++) {
                    if (l.positions().contains(lever.positions().get(i))) {
                        mask |= 1L << i;
                    }
                }
                net.onLever(v, java.util.Objects.requireNonNull(levers.get(l.lever())), mask);
            }
        }
        for (DeviceKind.LoadPoint lp : kind.loadPoints()) {
            loadPoint(box, d, lp);
        }
    }

    private void loadPoint(Box box, Device d, DeviceKind.LoadPoint lp) {
        Set<Integer> terminals = new LinkedHashSet<>();
        int[][] pairs = new int[lp.pairs().size()][];
        for (int i = 0; i < pairs.length; i++) {
            DeviceKind.Pair p = lp.pairs().get(i);
            pairs[i] = new int[] {terminal(d, p.a()), terminal(d, p.b())};
            terminals.add(pairs[i][0]);
            terminals.add(pairs[i][1]);
            net.loadEdges.add(pairs[i]);
        }
        int ground = lp.ground() == null ? -1 : terminal(d, lp.ground());
        String id = lp.name().isEmpty() ? d.name() : d.name() + "." + lp.name();
        net.loadPoints.add(new Net.LoadPoint(
                id,
                d.name(),
                box.name(),
                box.place(),
                terminals.stream().mapToInt(Integer::intValue).toArray(),
                pairs,
                ground));
    }

    private void tab(Box box, Device d, DeviceKind.Tab t, Basis basis) {
        Boolean said = d.tabs().get(t.name());
        boolean complete = house.isComplete(box, Complete.JOINTS);
        int a = terminal(d, t.a());
        int b = terminal(d, t.b());
        if (said == null && !complete) {
            net.uncertainLinks.add(new int[] {a, b});
        } else if (said == null ? t.madeIn() : said) {
            link(box, d, a, b, basis);
        }
    }

    private int link(Box box, Device d, int a, int b, Basis basis) {
        int v = net.add(Net.Kind.LINK, d.name(), box.name(), basis);
        net.edge(a, v);
        net.edge(v, b);
        java.util.Objects.requireNonNull(net.deviceVertices.get(d.name())).add(v);
        return v;
    }

    private int terminal(Device d, String name) {
        Integer v = net.byTerminal.get(d.name() + "." + name);
        if (v == null) {
            throw new IllegalArgumentException("device " + d.name() + " has no terminal " + name);
        }
        return v;
    }

    private void joint(String box, List<Integer> members, List<String> said, Basis basis) {
        String name = box + ":" + Collections.min(said);
        int j = net.add(Net.Kind.JOINT, name, box, basis);
        net.byJoint.put(name, j);
        for (int m : members) {
            net.edge(j, m);
        }
    }

    private List<Integer> memberVertices(String box, Joint j) {
        List<Integer> vertices = new ArrayList<>();
        for (Ref r : j.members()) {
            Integer v = vertex(box, r);
            if (v != null) {
                vertices.add(v);
            }
        }
        return vertices;
    }

    static List<String> memberNames(Joint j) {
        return j.members().stream().map(Ref::said).toList();
    }

    /** The vertex of a member; null for the metal of a box that has none. */
    private @Nullable Integer vertex(String box, Ref r) {
        if (r instanceof Ref.WireEnd e) {
            return net.byWireEnd.get(e.cable() + "." + e.wire() + "@" + (e.end() + 1));
        }
        if (r instanceof Ref.DeviceTerminal t) {
            return net.byTerminal.get(t.device() + "." + t.terminal());
        }
        if (r instanceof Ref.SourceTerminal s) {
            return net.byTerminal.get(s.source() + "." + s.terminal());
        }
        if (r instanceof Ref.PanelTerminal t) {
            return net.byTerminal.get(box + "." + t.terminal());
        }
        return net.byTerminal.get(box + "/box");
    }

    /** In a panel every wire on a terminal or bar is a joint of its own; terminals strapped together share one. */
    private void panelJoints(Panel p) {
        Basis panelBasis = p.about().basisOr(house.basis());
        for (Joint j : p.joints()) {
            Basis basis = j.about().basisOr(panelBasis);
            List<Ref> on = j.members().stream()
                    .filter(r -> r instanceof Ref.PanelTerminal)
                    .toList();
            List<Ref> landed = j.members().stream()
                    .filter(r -> !(r instanceof Ref.PanelTerminal))
                    .toList();
            if (on.isEmpty()) {
                joint(p.name(), memberVertices(p.name(), j), memberNames(j), basis);
                continue;
            }
            List<Integer> terminals = new ArrayList<>();
            for (Ref r : on) {
                Integer v = vertex(p.name(), r);
                if (v != null) {
                    terminals.add(v);
                }
            }
            for (Ref r : landed) {
                Integer v = vertex(p.name(), r);
                if (v != null) {
                    List<Integer> members = new ArrayList<>(terminals);
                    members.add(v);
                    joint(p.name(), members, List.of(r.said()), basis);
                }
            }
            strap(p, on, terminals, basis);
        }
    }

    private void strap(Panel p, List<Ref> on, List<Integer> terminals, Basis basis) {
        if (on.size() < 2) {
            return;
        }
        boolean neutral = on.contains(new Ref.PanelTerminal("n"));
        boolean ground = on.contains(new Ref.PanelTerminal("g"));
        if (neutral && ground) {
            net.straps.add(p.name());
            return;
        }
        joint(p.name(), terminals, on.stream().map(Ref::said).toList(), basis);
    }
}
