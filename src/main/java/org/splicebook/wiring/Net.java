package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;

/**
 * The raw netlist of a house as numbered vertices and undirected edges, loads left out. Everything that can be lost or passed is a
 * vertex: joints, wire ends, wires, terminals, links inside devices, poles, buses, bars. Built once, never changed.
 */
final class Net {
    private static final int ROOM = 1024;
    /** With joints, terminals and links a house has some seven vertices to a wire. */
    private static final int VERTICES_TO_A_WIRE = 8;

    /** What a vertex is. */
    enum Kind {
        JOINT,
        WIRE_END,
        WIRE,
        TERMINAL,
        /** A link inside a device. */
        LINK,
        METAL,
        POLE,
        /** A pole of a panel's main. */
        MAIN_POLE,
        /** From a breaker's neutral terminal to the neutral bar. */
        NEUTRAL_LINK,
        /** Between a source pole and a lug, where supplies exclude each other. */
        SUPPLY_LINK,
        /** A fuse in the supply neutral. */
        NEUTRAL_FUSE,
        BUS,
        NEUTRAL_BAR,
        GROUND_BAR,
        LUG,
        SOURCE_POLE,
        SOURCE_NEUTRAL,
        SOURCE_GROUND
    }

    /** One load point: its load terminals, the pairs of them a load sits across, its ground terminal (-1: none). */
    @SuppressWarnings("ArrayRecordComponent") // vertices, never compared
    record LoadPoint(
            String id, String device, String box, @Nullable String place, int[] terminals, int[][] pairs, int ground) {}

    /** A lever: its name and how many positions it has. */
    record Lever(String name, int positions) {}

    /** Gives the names of vertices that belong together, when one is asked for: most never are. */
    interface Namer {
        /** {@return the name of a vertex of these} */
        String name(int vertex);
    }

    /** The wires of a cable: three vertices for each, the wire and its two ends, from {@code first} on. */
    record Wires(Cable cable, int first) implements Namer {
        @Override
        public String name(int vertex) {
            int i = vertex - first;
            String wire = cable.name() + "." + cable.wires().get(i / 3).name();
            return i % 3 == 0 ? wire : wire + "@" + i % 3;
        }

        /** {@return an end (0 or 1) of one of its wires, counted from 0} */
        int end(int wire, int end) {
            return first + 3 * wire + 1 + end;
        }

        /** {@return an end (0 or 1) of a wire by its name, or -1} */
        int end(String wire, int end) {
            for (int i = 0; i < cable.wires().size(); i++) {
                if (cable.wires().get(i).name().equals(wire)) {
                    return end(i, end);
                }
            }
            return -1;
        }
    }

    /** A device: its terminals in the order of its kind from {@code first} on, its links after them, the last before {@code end}. */
    record Placed(Device device, int first, int end) implements Namer {
        @Override
        public String name(int vertex) {
            List<DeviceKind.Terminal> terminals = device.kind().terminals();
            int i = vertex - first;
            return i < terminals.size() ? device.name() + "." + terminals.get(i).name() : device.name();
        }

        /** {@return a terminal by its kind's name for it, or -1} */
        int terminal(String name) {
            List<DeviceKind.Terminal> terminals = device.kind().terminals();
            for (int i = 0; i < terminals.size(); i++) {
                if (terminals.get(i).name().equals(name)) {
                    return first + i;
                }
            }
            return -1;
        }

        /** {@return its links} */
        int[] links() {
            int links = first + device.kind().terminals().size();
            int[] all = new int[end - links];
            Arrays.setAll(all, i -> links + i);
            return all;
        }
    }

    final House house;

    /** What each vertex is. */
    Kind[] kind = new Kind[ROOM];
    /** By vertex: the lever that it is on, or -1, and the positions in which it conducts, as bits. */
    int[] lever = new int[ROOM];

    long[] mask = new long[ROOM];
    /** By vertex: for wires and their ends the number of the cable, -1 for others. */
    int[] cable = new int[ROOM];

    private @Nullable String[] names = new String[ROOM];
    private @Nullable Namer[] namers = new Namer[ROOM];
    private String[] boxes = new String[ROOM];
    private Basis[] bases = new Basis[ROOM];
    private String[] panels = new String[ROOM];

    private final Ints edges;
    final List<Lever> levers = new ArrayList<>();
    final List<LoadPoint> loadPoints = new ArrayList<>();
    /** Pairs that conduct only as a load: load points' pairs and electronics across contacts. */
    final List<int[]> loadEdges = new ArrayList<>();
    /** Links that may or may not be there: tabs not known. */
    final List<int[]> uncertainLinks = new ArrayList<>();
    /** Terminals meant for ground, and metal of devices. */
    final BitSet groundTerminals = new BitSet();
    /** Terminals meant for a neutral. */
    final BitSet neutralTerminals = new BitSet();
    /** Terminals across which a load sits. */
    final BitSet loadTerminals = new BitSet();
    /** Vertices at which a protective device or breaker watches a current: guarded links, poles, neutral links. */
    final BitSet sensors = new BitSet();
    /** Pole vertex by name: {@code main.2}. */
    final Map<String, Integer> poles = new HashMap<>();
    /** The terminal on the line side of a guarded link. */
    final Map<Integer, Integer> lineSide = new HashMap<>();
    /** Breaker name by pole vertex. */
    final Map<Integer, String> breakerOf = new HashMap<>();

    /** Panels whose supply is recorded only in part: taken as fed, so that nothing unknown looks dead. */
    final java.util.Set<String> assumedFed = new java.util.TreeSet<>();

    /** Panels in which a strap joins neutral and ground bar. */
    final List<String> straps = new ArrayList<>();

    /** Vertices of panels and sources by name: {@code main.n}, {@code main/pole/2}, {@code service.l1}. */
    final Map<String, Integer> byTerminal = new HashMap<>();
    /** Cables by name. */
    final Map<String, Wires> wires = new HashMap<>();
    /** Devices by name. */
    final Map<String, Placed> devices = new HashMap<>();
    /** The metal of boxes and panels by their name. */
    final Map<String, Integer> metal = new HashMap<>();
    /** By box: the vertex of its first joint; the others follow in the order of the record. */
    final Map<String, Integer> firstJoint = new HashMap<>();

    int size;
    int[] start = new int[0];
    int[] adjacent = new int[0];
    boolean[] cut = new boolean[0];
    /** By vertex, made when first asked for: many ways and losses name the same. */
    private @Nullable Thing[] things = new Thing[0];

    private Way.@Nullable Hop[] hops = new Way.Hop[0];

    private @Nullable Regions regions;
    private @Nullable MayGraph mayGraph;

    Net(House house) {
        this.house = house;
        int recorded = 0;
        for (Cable c : house.cables().values()) {
            recorded += c.wires().size();
        }
        int room = Math.max(ROOM, VERTICES_TO_A_WIRE * recorded);
        grow(room);
        edges = new Ints(2 * room);
    }

    /** Adds a vertex that is named when it is asked for. */
    int add(Kind k, @Nullable Namer namer, String box, Basis basis) {
        if (size == kind.length) {
            grow(2 * size);
        }
        kind[size] = k;
        namers[size] = namer;
        boxes[size] = box;
        bases[size] = basis;
        panels[size] = "";
        lever[size] = -1;
        mask[size] = -1L;
        cable[size] = -1;
        return size++;
    }

    private void grow(int room) {
        kind = Arrays.copyOf(kind, room);
        lever = Arrays.copyOf(lever, room);
        mask = Arrays.copyOf(mask, room);
        cable = Arrays.copyOf(cable, room);
        names = Arrays.copyOf(names, room);
        namers = Arrays.copyOf(namers, room);
        boxes = Arrays.copyOf(boxes, room);
        bases = Arrays.copyOf(bases, room);
        panels = Arrays.copyOf(panels, room);
    }

    int add(Kind k, String name, String box, Basis basis) {
        int v = add(k, (Namer) null, box, basis);
        names[v] = name;
        return v;
    }

    int addIn(String panel, Kind k, String name, Basis basis) {
        int v = add(k, name, panel, basis);
        panels[v] = panel;
        return v;
    }

    void edge(int a, int b) {
        edges.add(a);
        edges.add(b);
    }

    /** Makes a vertex conduct only in some positions of a lever. */
    void onLever(int vertex, int leverIndex, long positions) {
        lever[vertex] = leverIndex;
        mask[vertex] = positions;
    }

    int addLever(String name, int positions) {
        levers.add(new Lever(name, positions));
        return levers.size() - 1;
    }

    /** Makes the lists of neighbours, when all is added. */
    Net freeze() {
        start = new int[size + 1];
        for (int i = 0; i < edges.size(); i++) {
            start[edges.get(i) + 1]++;
        }
        for (int i = 0; i < size; i++) {
            start[i + 1] += start[i];
        }
        int[] at = Arrays.copyOf(start, size);
        adjacent = new int[start[size]];
        for (int i = 0; i < edges.size(); i += 2) {
            int a = edges.get(i);
            int b = edges.get(i + 1);
            adjacent[at[a]++] = b;
            adjacent[at[b]++] = a;
        }
        cut = new boolean[size];
        things = new Thing[size];
        hops = new Way.Hop[size];
        for (int v = 0; v < size; v++) {
            cut[v] = kind[v] == Kind.BUS || kind[v] == Kind.NEUTRAL_BAR || kind[v] == Kind.GROUND_BAR;
        }
        for (LoadPoint lp : loadPoints) {
            for (int t : lp.terminals()) {
                loadTerminals.set(t);
            }
        }
        return this;
    }

    /** {@return the name of a vertex; ends of wires with their end} */
    String name(int v) {
        String known = names[v];
        if (known == null) {
            known = java.util.Objects.requireNonNull(namers[v]).name(v);
            names[v] = known;
        }
        return known;
    }

    /** {@return the box or panel a vertex is in; empty for wires} */
    String box(int v) {
        return boxes[v];
    }

    /** {@return how a vertex is known} */
    Basis basis(int v) {
        return bases[v];
    }

    /** {@return the panel of a bus, bar, lug, pole; empty for others} */
    String panel(int v) {
        return panels[v];
    }

    /** {@return the name of the cable of a wire or of an end of one} */
    String cableName(int v) {
        return ((Wires) java.util.Objects.requireNonNull(namers[v])).cable().name();
    }

    /** {@return whether a wire end is the first of its wire} */
    boolean isFirstEnd(int wireEnd) {
        return (wireEnd - ((Wires) java.util.Objects.requireNonNull(namers[wireEnd])).first()) % 3 == 1;
    }

    /** {@return the terminal of a device, panel or source by its name, or -1} */
    int terminal(String name) {
        int dot = name.indexOf('.');
        Placed device = dot < 0 ? null : devices.get(name.substring(0, dot));
        int v = device == null ? -1 : device.terminal(name.substring(dot + 1));
        return v >= 0 ? v : byTerminal.getOrDefault(name, -1);
    }

    /** {@return the thing that people know a vertex by} */
    Thing thing(int v) {
        Thing known = things[v];
        if (known == null) {
            known = makeThing(v);
            things[v] = known;
        }
        return known;
    }

    /** {@return its regions, found when first asked for} */
    Regions regions() {
        if (regions == null) {
            regions = new Regions(this);
        }
        return regions;
    }

    /** {@return what it may be joined to, found when first asked for} */
    MayGraph mayGraph() {
        if (mayGraph == null) {
            mayGraph = new MayGraph(this);
        }
        return mayGraph;
    }

    /** {@return a vertex as a hop of a way} */
    Way.Hop hop(int v) {
        Way.Hop known = hops[v];
        if (known == null) {
            known = new Way.Hop(thing(v), boxes[v], bases[v]);
            hops[v] = known;
        }
        return known;
    }

    private Thing makeThing(int v) {
        String name = name(v);
        return switch (kind[v]) {
            case JOINT -> new Thing(ThingKind.JOINT, name);
            case WIRE_END -> new Thing(ThingKind.WIRE_END, name);
            case WIRE -> new Thing(ThingKind.WIRE, name);
            case TERMINAL -> new Thing(ThingKind.TERMINAL, name);
            case LINK -> new Thing(ThingKind.DEVICE, name);
            case METAL -> new Thing(ThingKind.METAL, name);
            case POLE -> new Thing(ThingKind.POLE, name);
            case MAIN_POLE, NEUTRAL_FUSE -> new Thing(ThingKind.MAIN, panels[v]);
            case NEUTRAL_LINK -> new Thing(ThingKind.BREAKER, name);
            case SUPPLY_LINK, SOURCE_POLE, SOURCE_NEUTRAL, SOURCE_GROUND ->
                new Thing(
                        ThingKind.SOURCE,
                        name.substring(0, name.lastIndexOf('.') < 0 ? name.length() : name.lastIndexOf('.')));
            case BUS -> new Thing(ThingKind.BUS, name);
            case NEUTRAL_BAR, GROUND_BAR -> new Thing(ThingKind.BAR, name);
            case LUG -> new Thing(ThingKind.LUG, name);
        };
    }
}
