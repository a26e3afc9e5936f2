package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SubBus;
import org.splicebook.record.Wire;

/**
 * A complete house as a plain graph of vertices. Everything that can be taken away or moved is a vertex of its own: wire ends, wires,
 * joints, terminals, each link inside a device, each pole, each link to a source. Loads are not edges.
 */
final class Netlist {
    /** What a vertex is. */
    enum Kind {
        WIRE_END,
        WIRE,
        JOINT,
        TERMINAL,
        LINK,
        METAL,
        SPACE,
        POLE,
        MAIN_POLE,
        NEUTRAL_LINK,
        LUG,
        SUPPLY_LINK,
        SOURCE,
        BUS,
        NEUTRAL_BAR,
        GROUND_BAR
    }

    /** In which positions of which lever a vertex conducts. */
    record Condition(int lever, Set<String> positions) {}

    /** A vertex; {@code owner} is the cable, device, breaker, panel or source it belongs to. */
    static final class Vertex {
        final int id;
        final Kind kind;
        final String name;
        final String owner;
        final List<Condition> conditions = new ArrayList<>();
        final List<Integer> next = new ArrayList<>();

        /** For a link: when it conducts; for a guarded link also its line terminal. */
        DeviceKind.@Nullable When when;

        String line = "";
        boolean loadTerminal;
        boolean groundTerminal;
        boolean neutralTerminal;
        boolean landing;
        String panel = "";

        Vertex(int id, Kind kind, String name, String owner) {
            this.id = id;
            this.kind = kind;
            this.name = name;
            this.owner = owner;
        }

        @Override
        public String toString() {
            return kind + " " + name;
        }
    }

    /** One lever: a device's, or one for each exclusive group. */
    record Lever(String name, List<String> positions, boolean exclusive) {}

    /** A load point and the vertices of its terminals. */
    record Load(String id, String device, String box, List<int[]> pairs, List<Integer> terminals, int ground) {}

    final House house;
    final List<Vertex> vertices = new ArrayList<>();
    final Map<String, Integer> byName = new HashMap<>();
    final List<Lever> levers = new ArrayList<>();
    final List<Load> loads = new ArrayList<>();
    /** Loads across contacts: pairs of vertices. */
    final List<int[]> asLoad = new ArrayList<>();

    final List<int[]> deviceLoadPairs = new ArrayList<>();
    final Map<String, Integer> busOfPole = new LinkedHashMap<>();
    final Map<String, Breaker> breakers = new LinkedHashMap<>();
    final Map<String, String> panelOfBreaker = new LinkedHashMap<>();
    final Map<String, Device> devices = new LinkedHashMap<>();
    /** Joint vertices that go when a device is taken off. */
    final Map<String, List<Integer>> heldBy = new LinkedHashMap<>();
    /** Wire ends that are in a joint. */
    final List<Integer> landedEnds = new ArrayList<>();

    final List<String> strapped = new ArrayList<>();
    final int[][] next;
    final int[] conditional;
    final boolean[] cuts;
    /** Poles, bars and source terminals: where ways end. */
    final BitSet ends = new BitSet();

    Netlist(House house) {
        this.house = house;
        for (Source s : house.sources().values()) {
            s.system().poles().forEach(p -> vertex(Kind.SOURCE, s.name() + "." + p.terminal(), s.name()));
            vertex(Kind.SOURCE, s.name() + ".n", s.name());
            vertex(Kind.SOURCE, s.name() + ".g", s.name());
        }
        house.panels().values().forEach(this::panel);
        house.cables().values().forEach(this::cable);
        house.boxes().values().forEach(b -> b.devices().values().forEach(d -> device(b, d)));
        house.panels().values().forEach(this::landings);
        house.boxes().values().forEach(b -> b.joints().forEach(j -> joint(b.name(), j, j.members())));
        next = vertices.stream()
                .map(v -> v.next.stream().mapToInt(i -> i).distinct().toArray())
                .toArray(int[][]::new);
        conditional = vertices.stream()
                .filter(v -> !v.conditions.isEmpty())
                .mapToInt(v -> v.id)
                .toArray();
        cuts = new boolean[next.length];
        for (Vertex v : vertices) {
            cuts[v.id] = World.cuts(v);
            ends.set(v.id, v.kind == Kind.POLE || v.kind == Kind.SOURCE || cuts[v.id]);
        }
    }

    int at(String name) {
        Integer v = byName.get(name);
        if (v == null) {
            throw new IllegalStateException("no vertex " + name);
        }
        return v;
    }

    private int vertex(Kind kind, String name, String owner) {
        Vertex v = new Vertex(vertices.size(), kind, name, owner);
        vertices.add(v);
        if (byName.put(kind == Kind.JOINT ? "joint " + name : name, v.id) != null && kind != Kind.LINK) {
            throw new IllegalStateException("two vertices " + name);
        }
        return v.id;
    }

    private void edge(int a, int b) {
        vertices.get(a).next.add(b);
        vertices.get(b).next.add(a);
    }

    private void panel(Panel p) {
        String n = p.name();
        int bar = vertex(Kind.NEUTRAL_BAR, n + ".n", n);
        int ground = vertex(Kind.GROUND_BAR, n + ".g", n);
        int metal = vertex(Kind.METAL, n + ".box", n);
        edge(metal, ground);
        int legs = Legs.count(house, p);
        for (int i = 0; i < legs; i++) {
            char leg = (char) ('a' + i);
            int lug = vertex(Kind.LUG, n + ".line-" + (i + 1), n);
            int bus = vertex(Kind.BUS, n + "." + leg, n);
            if (p.main() == null) {
                edge(lug, bus);
            } else {
                int pole = vertex(Kind.MAIN_POLE, n + ".main-" + (i + 1), n);
                edge(lug, pole);
                edge(pole, bus);
            }
            for (SubBus s : p.buses().values()) {
                int sub = vertex(Kind.BUS, n + "." + s.name() + "." + leg, n);
                if (s.fedBy() == null) {
                    edge(lug, sub);
                }
            }
        }
        for (Breaker b : p.breakers().values()) {
            breakers.put(n + "." + b.key(), b);
            panelOfBreaker.put(n + "." + b.key(), n);
            for (String space : b.spaces()) {
                int terminal = vertex(Kind.SPACE, n + "." + space, n + "." + b.key());
                int pole = vertex(Kind.POLE, "pole " + n + "." + space, n + "." + b.key());
                int bus = at(n + "." + Legs.bus(house, p, space));
                edge(terminal, pole);
                edge(pole, bus);
                vertices.get(pole).panel = n;
                busOfPole.put(n + "." + space, bus);
            }
            if (b.neutralTerminal()) {
                int t = vertex(Kind.SPACE, n + "." + b.spaces().get(0) + ".neutral", n + "." + b.key());
                int link = vertex(Kind.NEUTRAL_LINK, "neutral link " + n + "." + b.key(), n + "." + b.key());
                edge(t, link);
                edge(link, bar);
            }
        }
        for (SubBus s : p.buses().values()) {
            Breaker by = s.fedBy() == null ? null : p.breakers().get(s.fedBy());
            if (by != null) {
                for (String space : by.spaces()) {
                    edge(at(n + "." + space), at(n + "." + s.name() + "." + Legs.leg(house, p, space)));
                }
            }
        }
        for (String supply : p.supply()) {
            Source s = house.sources().get(supply);
            if (s == null) {
                continue;
            }
            for (int i = 0; i < Math.min(legs, s.system().poles().size()); i++) {
                int link = vertex(Kind.SUPPLY_LINK, n + " supply " + supply + " " + i, n + "/" + supply);
                edge(at(n + ".line-" + (i + 1)), link);
                edge(link, at(supply + "." + s.system().poles().get(i).terminal()));
            }
            edge(at(supply + ".n"), bar);
            edge(at(supply + ".g"), ground);
        }
        for (List<String> group : p.exclusive()) {
            int lever = levers.size();
            levers.add(new Lever("exclusive " + n + group, List.copyOf(group), true));
            for (String member : group) {
                Condition c = new Condition(lever, Set.of(member));
                for (Vertex v : vertices) {
                    boolean main = member.equals("main") && v.kind == Kind.MAIN_POLE && v.owner.equals(n);
                    boolean breaker = v.kind == Kind.POLE && v.owner.equals(n + "." + member);
                    boolean supply = v.kind == Kind.SUPPLY_LINK && v.owner.equals(n + "/" + member);
                    if (main || breaker || supply) {
                        v.conditions.add(c);
                    }
                }
            }
        }
    }

    private void cable(Cable c) {
        for (Wire w : c.wires()) {
            String name = c.name() + "." + w.name();
            int wire = vertex(Kind.WIRE, name, c.name());
            edge(wire, vertex(Kind.WIRE_END, name + "@1", c.name()));
            edge(wire, vertex(Kind.WIRE_END, name + "@2", c.name()));
        }
    }

    private void device(Box box, Device d) {
        devices.put(d.name(), d);
        DeviceKind k = d.kind();
        for (DeviceKind.Terminal t : k.terminals()) {
            int v = vertex(Kind.TERMINAL, d.name() + "." + t.name(), d.name());
            vertices.get(v).neutralTerminal = t.role() == DeviceKind.Role.NEUTRAL;
            vertices.get(v).groundTerminal = t.role() == DeviceKind.Role.GROUND || t.role() == DeviceKind.Role.METAL;
        }
        int first = levers.size();
        for (DeviceKind.Lever l : k.levers()) {
            levers.add(new Lever(d.name() + "/" + l.name(), l.positions(), false));
        }
        int i = 0;
        for (DeviceKind.Link l : k.links()) {
            int a = at(d.name() + "." + l.a());
            int b = at(d.name() + "." + l.b());
            if (l.when() == DeviceKind.When.AS_LOAD) {
                asLoad.add(new int[] {a, b});
                continue;
            }
            int v = link(d, a, b, i++);
            vertices.get(v).when = l.when();
            vertices.get(v).line = l.a();
            if (l.when() == DeviceKind.When.LEVER) {
                for (int j = 0; j < k.levers().size(); j++) {
                    if (k.levers().get(j).name().equals(l.lever())) {
                        vertices.get(v).conditions.add(new Condition(first + j, l.positions()));
                    }
                }
            }
        }
        for (DeviceKind.Tab t : k.tabs()) {
            if (d.tabs().getOrDefault(t.name(), true)) {
                int v = link(d, at(d.name() + "." + t.a()), at(d.name() + "." + t.b()), i++);
                vertices.get(v).when = DeviceKind.When.ALWAYS;
            }
        }
        for (DeviceKind.LoadPoint lp : k.loadPoints()) {
            List<int[]> pairs = new ArrayList<>();
            List<Integer> terminals = new ArrayList<>();
            for (DeviceKind.Pair p : lp.pairs()) {
                int a = at(d.name() + "." + p.a());
                int b = at(d.name() + "." + p.b());
                pairs.add(new int[] {a, b});
                for (int t : new int[] {a, b}) {
                    vertices.get(t).loadTerminal = true;
                    if (!terminals.contains(t)) {
                        terminals.add(t);
                    }
                }
            }
            int ground = lp.ground() == null ? -1 : at(d.name() + "." + lp.ground());
            if (ground >= 0) {
                vertices.get(ground).groundTerminal = true;
            }
            String id = lp.name().isEmpty() ? d.name() : d.name() + "." + lp.name();
            loads.add(new Load(id, d.name(), box.name(), pairs, terminals, ground));
            deviceLoadPairs.addAll(pairs);
        }
    }

    private int link(Device d, int a, int b, int i) {
        int v = vertex(Kind.LINK, d.name() + " link " + i, d.name());
        edge(a, v);
        edge(v, b);
        return v;
    }

    /** In a panel every member beside a bar, lug or breaker terminal is a landing, a joint of its own. */
    private void landings(Panel p) {
        for (Joint j : p.joints()) {
            List<Ref> posts = j.members().stream()
                    .filter(m -> m instanceof Ref.PanelTerminal)
                    .toList();
            if (posts.isEmpty()) {
                joint(p.name(), j, j.members());
                continue;
            }
            if (posts.size() == 2
                    && posts.containsAll(List.of(new Ref.PanelTerminal("n"), new Ref.PanelTerminal("g")))) {
                strapped.add(p.name());
                continue;
            }
            for (Ref m : j.members()) {
                if (!posts.contains(m)) {
                    int v = joint(p.name(), j, List.of(m));
                    vertices.get(v).landing = true;
                    posts.forEach(post -> edge(v, vertexOf(p.name(), post)));
                }
            }
        }
    }

    private int joint(String box, Joint j, List<Ref> members) {
        String first = members.stream().map(Ref::said).sorted().findFirst().orElseThrow();
        int v = vertex(Kind.JOINT, box + ":" + first, box);
        for (Ref m : members) {
            int end = vertexOf(box, m);
            edge(v, end);
            if (m instanceof Ref.WireEnd) {
                landedEnds.add(end);
            }
            boolean held = j.hold() == Joint.Hold.UNSAID && m instanceof Ref.DeviceTerminal;
            if (held) {
                hold(((Ref.DeviceTerminal) m).device(), v);
            }
        }
        if (j.hold() == Joint.Hold.DEVICE) {
            for (Ref h : j.holders()) {
                if (h instanceof Ref.DeviceTerminal t) {
                    hold(t.device(), v);
                }
            }
        }
        return v;
    }

    private void hold(String device, int joint) {
        heldBy.computeIfAbsent(device, d -> new ArrayList<>()).add(joint);
    }

    private int vertexOf(String box, Ref r) {
        if (r instanceof Ref.WireEnd w) {
            return at(w.cable() + "." + w.wire() + "@" + (w.end() + 1));
        } else if (r instanceof Ref.DeviceTerminal t) {
            return at(t.device() + "." + t.terminal());
        } else if (r instanceof Ref.PanelTerminal t) {
            return at(box + "." + t.terminal());
        } else if (r instanceof Ref.SourceTerminal s) {
            return at(s.source() + "." + s.terminal());
        }
        Integer metal = byName.get(box + ".box");
        return metal != null ? metal : vertex(Kind.METAL, box + ".box", box);
    }
}
