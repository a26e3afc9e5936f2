package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.House;

/**
 * The raw netlist of a house as numbered vertices and undirected edges, loads left out. Everything that can be lost or passed is a
 * vertex: joints, wire ends, wires, terminals, links inside devices, poles, buses, bars. Built once, never changed.
 */
final class Net {
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

    final House house;
    final List<Kind> kinds = new ArrayList<>();
    final List<String> names = new ArrayList<>();
    final List<String> boxes = new ArrayList<>();
    final List<Basis> bases = new ArrayList<>();
    /** The panel of a bus, bar, lug, pole; empty for others. */
    final List<String> panels = new ArrayList<>();

    private final List<int[]> edgeList = new ArrayList<>();
    private final List<Integer> leverOf = new ArrayList<>();
    private final List<Long> maskOf = new ArrayList<>();
    final List<Lever> levers = new ArrayList<>();
    final List<LoadPoint> loadPoints = new ArrayList<>();
    /** Pairs that conduct only as a load: load points' pairs and electronics across contacts. */
    final List<int[]> loadEdges = new ArrayList<>();
    /** Links that may or may not be there: tabs not known. */
    final List<int[]> uncertainLinks = new ArrayList<>();
    /** Terminals meant for ground, and metal of devices. */
    final List<Integer> groundTerminals = new ArrayList<>();

    /** Terminals meant for a neutral. */
    final java.util.Set<Integer> neutralTerminals = new java.util.HashSet<>();
    /** Vertices at which a protective device or breaker watches a current: guarded links, poles, neutral links. */
    final java.util.Set<Integer> sensors = new java.util.HashSet<>();
    /** Bus vertex by name: {@code main.a}. */
    final Map<String, Integer> buses = new HashMap<>();
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

    /** Wires and wire ends: the number of their cable among the house's, by vertex as added. */
    private final List<Integer> cableOf = new ArrayList<>();

    final Map<String, Integer> byTerminal = new HashMap<>();
    final Map<String, Integer> byWireEnd = new HashMap<>();
    final Map<String, Integer> byJoint = new HashMap<>();
    final Map<String, List<Integer>> deviceVertices = new HashMap<>();

    int size;
    Kind[] kind = new Kind[0];
    int[] lever = new int[0];
    long[] mask = new long[0];
    int[] start = new int[0];
    int[] adjacent = new int[0];
    boolean[] cut = new boolean[0];
    /** By vertex: for wires and their ends the number of the cable, -1 for others. */
    int[] cable = new int[0];
    /** By vertex, made when first asked for: many ways and losses name the same. */
    private @Nullable Thing[] things = new Thing[0];

    private Way.@Nullable Hop[] hops = new Way.Hop[0];

    private @Nullable Regions regions;
    private @Nullable MayGraph mayGraph;

    Net(House house) {
        this.house = house;
    }

    int add(Kind k, String name, String box, Basis basis) {
        kinds.add(k);
        names.add(name);
        boxes.add(box);
        bases.add(basis);
        panels.add("");
        leverOf.add(-1);
        maskOf.add(-1L);
        cableOf.add(-1);
        return kinds.size() - 1;
    }

    int addIn(String panel, Kind k, String name, Basis basis) {
        int v = add(k, name, panel, basis);
        panels.set(v, panel);
        return v;
    }

    /** Adds a wire, or an end of one. */
    int addOfCable(int number, Kind k, String name, String box, Basis basis) {
        int v = add(k, name, box, basis);
        cableOf.set(v, number);
        return v;
    }

    void edge(int a, int b) {
        edgeList.add(new int[] {a, b});
    }

    /** Makes a vertex conduct only in some positions of a lever. */
    void onLever(int vertex, int leverIndex, long positions) {
        leverOf.set(vertex, leverIndex);
        maskOf.set(vertex, positions);
    }

    int addLever(String name, int positions) {
        levers.add(new Lever(name, positions));
        return levers.size() - 1;
    }

    /** Freezes lists into arrays. */
    Net freeze() {
        size = kinds.size();
        kind = kinds.toArray(new Kind[0]);
        lever = leverOf.stream().mapToInt(Integer::intValue).toArray();
        cable = cableOf.stream().mapToInt(Integer::intValue).toArray();
        mask = maskOf.stream().mapToLong(Long::longValue).toArray();
        start = new int[size + 1];
        for (int[] e : edgeList) {
            start[e[0] + 1]++;
            start[e[1] + 1]++;
        }
        for (int i = 0; i < size; i++) {
            start[i + 1] += start[i];
        }
        int[] at = Arrays.copyOf(start, size);
        adjacent = new int[start[size]];
        for (int[] e : edgeList) {
            adjacent[at[e[0]]++] = e[1];
            adjacent[at[e[1]]++] = e[0];
        }
        cut = new boolean[size];
        things = new Thing[size];
        hops = new Way.Hop[size];
        for (int v = 0; v < size; v++) {
            if (kind[v] == Kind.BUS) {
                buses.put(names.get(v), v);
            }
            cut[v] = kind[v] == Kind.BUS || kind[v] == Kind.NEUTRAL_BAR || kind[v] == Kind.GROUND_BAR;
        }
        return this;
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
            known = new Way.Hop(thing(v), boxes.get(v), bases.get(v));
            hops[v] = known;
        }
        return known;
    }

    private Thing makeThing(int v) {
        String name = names.get(v);
        return switch (kind[v]) {
            case JOINT -> new Thing(ThingKind.JOINT, name);
            case WIRE_END -> new Thing(ThingKind.WIRE_END, name);
            case WIRE -> new Thing(ThingKind.WIRE, name);
            case TERMINAL -> new Thing(ThingKind.TERMINAL, name);
            case LINK -> new Thing(ThingKind.DEVICE, name);
            case METAL -> new Thing(ThingKind.METAL, name);
            case POLE -> new Thing(ThingKind.POLE, name);
            case MAIN_POLE, NEUTRAL_FUSE -> new Thing(ThingKind.MAIN, panels.get(v));
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
