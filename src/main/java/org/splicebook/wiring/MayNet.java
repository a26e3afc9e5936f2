package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/**
 * A house as one graph of everything that may conduct, for those who ask what may reach what: the recorded netlist, what something not
 * recorded may join (design ruling 12), and loads. Read only; levers, breakers and bars are the reader's to judge.
 *
 * <p>Nodes below {@link #size()} are things of the record. The others stand for the unknown: having come out of it at an open end, the
 * unknown of one box, and the world, from which cables that nobody listed may come.
 */
public final class MayNet {
    /** What a thing is. */
    public enum Kind {
        JOINT,
        WIRE_END,
        WIRE,
        TERMINAL,
        LINK,
        METAL,
        /** One pole of a breaker or fuse. */
        POLE,
        MAIN_POLE,
        BUS,
        NEUTRAL_BAR,
        GROUND_BAR,
        LUG,
        SOURCE_POLE,
        SOURCE_NEUTRAL,
        SOURCE_GROUND,
        /** A link inside a panel: to a supply, to a breaker's neutral terminal. */
        INNER_LINK
    }

    /**
     * What one hand throws: a breaker with what is tied to it or in its pull-out, or a panel's main.
     *
     * @param panel the panel
     * @param breakers the breakers: {@code main.1}, {@code main.3}; for a main the panel's name alone
     * @param isMain whether it is the panel's main
     * @param poles the nodes of its poles
     */
    public record Handle(String panel, List<String> breakers, boolean isMain, List<Integer> poles) {
        public Handle {
            breakers = List.copyOf(breakers);
            poles = List.copyOf(poles);
        }
    }

    /**
     * A load point.
     *
     * @param id its id
     * @param device its device
     * @param box its box
     * @param place its place
     * @param pairs the pairs of terminals a load sits across
     */
    public record LoadPoint(
            String id, String device, String box, @Nullable String place, List<List<Integer>> pairs) {
        public LoadPoint {
            pairs = pairs.stream().map(List::copyOf).toList();
        }
    }

    private static final int[] NONE = {};

    private final Net net;
    private final int nodes;
    private final int[][] may;
    private final int[][] loads;
    private final int[] vertexOf;
    private final int world;
    private final Map<Integer, String> hubs;
    private final List<Handle> handles = new ArrayList<>();
    private final List<LoadPoint> loadPoints = new ArrayList<>();
    private final Set<String> bonded = new LinkedHashSet<>();
    private final Map<Integer, Handle> handleOf = new HashMap<>();

    private MayNet(House house) {
        this.net = NetBuilder.build(house);
        MayGraph graph = new MayGraph(net);
        this.nodes = graph.nodes;
        this.world = graph.world;
        this.hubs = graph.hubOf;
        this.vertexOf = new int[nodes];
        Arrays.setAll(vertexOf, i -> i < net.size ? i : -1);
        graph.arrivals().forEach((v, a) -> vertexOf[a] = v);
        this.may = lists(MayArcs.unrecorded(net, graph), nodes);
        this.loads = lists(MayArcs.acrossLoads(net), net.size);
        house.panels().values().forEach(this::handles);
        house.sources().values().forEach(s -> {
            if (s.bond() != null && house.panels().containsKey(s.bond())) {
                bonded.add(s.bond());
            }
        });
        bonded.addAll(net.straps);
        for (Net.LoadPoint lp : net.loadPoints) {
            loadPoints.add(new LoadPoint(
                    lp.id(),
                    lp.device(),
                    lp.box(),
                    lp.place(),
                    Arrays.stream(lp.pairs()).map(p -> List.of(p[0], p[1])).toList()));
        }
    }

    /** {@return the graph of a record; a pure function} */
    public static MayNet of(House house) {
        return new MayNet(house);
    }

    private static int[][] lists(List<int[]> arcs, int n) {
        int[] count = new int[n];
        arcs.forEach(a -> count[a[0]]++);
        int[][] lists = new int[n][];
        Arrays.setAll(lists, i -> count[i] == 0 ? NONE : new int[count[i]]);
        arcs.forEach(a -> lists[a[0]][--count[a[0]]] = a[1]);
        return lists;
    }

    private void handles(Panel p) {
        if (p.bonded()) {
            bonded.add(p.name());
        }
        List<Integer> main = Things.mainPoles(net, p.name());
        if (!main.isEmpty()) {
            add(new Handle(p.name(), List.of(p.name()), true, main));
        }
        Set<Breaker> done = new LinkedHashSet<>();
        for (Breaker b : p.breakers().values()) {
            if (!done.add(b)) {
                continue;
            }
            Set<Breaker> together = new LinkedHashSet<>(List.of(b));
            together.addAll(new Thrown(p).with(b));
            done.addAll(together);
            add(new Handle(
                    p.name(),
                    together.stream().map(x -> p.name() + "." + x.key()).toList(),
                    false,
                    together.stream()
                            .flatMap(x -> Things.poles(net, p, x).stream())
                            .distinct()
                            .toList()));
        }
    }

    private void add(Handle h) {
        handles.add(h);
        h.poles().forEach(v -> handleOf.put(v, h));
    }

    /** {@return how many nodes are things of the record} */
    public int size() {
        return net.size;
    }

    /** {@return how many nodes there are} */
    public int nodes() {
        return nodes;
    }

    /** {@return what a thing is} */
    public Kind kind(int v) {
        return switch (net.kind[v]) {
            case JOINT -> Kind.JOINT;
            case WIRE_END -> Kind.WIRE_END;
            case WIRE -> Kind.WIRE;
            case TERMINAL -> Kind.TERMINAL;
            case LINK -> Kind.LINK;
            case METAL -> Kind.METAL;
            case POLE -> Kind.POLE;
            case MAIN_POLE -> Kind.MAIN_POLE;
            case BUS -> Kind.BUS;
            case NEUTRAL_BAR -> Kind.NEUTRAL_BAR;
            case GROUND_BAR -> Kind.GROUND_BAR;
            case LUG -> Kind.LUG;
            case SOURCE_POLE -> Kind.SOURCE_POLE;
            case SOURCE_NEUTRAL -> Kind.SOURCE_NEUTRAL;
            case SOURCE_GROUND -> Kind.SOURCE_GROUND;
            case NEUTRAL_LINK, SUPPLY_LINK, NEUTRAL_FUSE -> Kind.INNER_LINK;
        };
    }

    /** {@return the name of a thing; ends of wires with their end} */
    public String name(int v) {
        return net.name(v);
    }

    /** {@return the thing as people know it} */
    public Thing thing(int v) {
        return net.thing(v);
    }

    /** {@return the box or panel a thing is in; empty for wires} */
    public String box(int v) {
        return net.box(v);
    }

    /** {@return how a thing is known} */
    public Basis basis(int v) {
        return net.basis(v);
    }

    /** {@return whether a thing conducts in some lever positions only} */
    public boolean isOnLever(int v) {
        return net.lever[v] >= 0;
    }

    /** {@return the name of the lever a thing is on: its device, or a panel's exclusive group; empty for none} */
    public String lever(int v) {
        return net.lever[v] < 0 ? "" : net.levers.get(net.lever[v]).name();
    }

    /** {@return the positions of its lever, as bits, in which a thing conducts} */
    public long positions(int v) {
        return net.mask[v];
    }

    /** {@return how many neighbours a thing has in the record} */
    public int recordedCount(int v) {
        return net.start[v + 1] - net.start[v];
    }

    /** {@return a thing's neighbour in the record} */
    public int recorded(int v, int i) {
        return net.adjacent[net.start[v] + i];
    }

    /** Calls back with every neighbour in the record. */
    public void forEachRecorded(int v, java.util.function.IntConsumer next) {
        for (int i = net.start[v]; i < net.start[v + 1]; i++) {
            next.accept(net.adjacent[i]);
        }
    }

    /** Calls back with every node that a node may lead to, loads left out. */
    public void forEachNext(int node, java.util.function.IntConsumer next) {
        if (node < net.size) {
            for (int i = net.start[node]; i < net.start[node + 1]; i++) {
                next.accept(net.adjacent[i]);
            }
        }
        for (int u : may[node]) {
            next.accept(u);
        }
    }

    /** Calls back with every terminal at the other side of a load at this node, or of a transformer. */
    public void forEachAcross(int node, java.util.function.IntConsumer next) {
        int v = vertexOf[node];
        if (v >= 0) {
            for (int u : loads[v]) {
                next.accept(u);
            }
        }
    }

    /** {@return the thing that a node stands for; -1 for the unknown of a box and the world} */
    public int thingOf(int node) {
        return vertexOf[node];
    }

    /** {@return the node from which cables come that nobody listed} */
    public int world() {
        return world;
    }

    /** {@return the nodes that stand for the unknown of a box or panel} */
    public List<Integer> unknownOf(String box) {
        return hubs.entrySet().stream()
                .filter(e -> e.getValue().equals(box))
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
    }

    /** {@return of which box or panel a node is the unknown; null if it is none} */
    public @Nullable String unknownBox(int node) {
        return hubs.get(node);
    }

    /** {@return everything that one hand throws} */
    public List<Handle> handles() {
        return List.copyOf(handles);
    }

    /** {@return the handle of a pole; null for what is no pole} */
    public @Nullable Handle handleOf(int pole) {
        return handleOf.get(pole);
    }

    /** {@return the load points} */
    public List<LoadPoint> loadPoints() {
        return List.copyOf(loadPoints);
    }

    /** {@return the panels in which the neutral and the ground bar are joined} */
    public Set<String> bondedPanels() {
        return Set.copyOf(bonded);
    }

    /** {@return a terminal, bar, lug or bus by name ({@code main.n}, {@code foot.common}, {@code main.6}), or -1} */
    public int terminal(String name) {
        return net.terminal(name);
    }

    /** {@return a wire's end by name and number, for example {@code K1.black} and 1, or -1} */
    public int wireEnd(String wire, int end) {
        int dot = wire.indexOf('.');
        Net.Wires cable = dot < 0 ? null : net.wires.get(wire.substring(0, dot));
        return cable == null || end < 1 || end > 2 ? -1 : cable.end(wire.substring(dot + 1), end - 1);
    }

    /** {@return whether a source's terminal is that of a supply that nobody recorded} */
    public boolean isSupplyUnknown(String source) {
        return source.startsWith("?.");
    }
}
