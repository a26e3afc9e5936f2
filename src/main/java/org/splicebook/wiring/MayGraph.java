package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/**
 * The netlist with all that it may be joined to (design ruling 12), levers joined, as arcs: an open end meets one open end or one
 * incomplete joint of its box, so a way may enter a box's unknown from a joint and leave it by an open end, or enter by an open end and
 * leave by either, but not go from joint to joint. A box into which other cables may come is open to the world: anything else that is
 * open to the world, and supplies that nobody listed.
 *
 * <p>Nodes: the vertices; for each open end a second node for having come out of the unknown; two hubs per open box; the world.
 */
final class MayGraph {
    private final Net net;
    private final House house;
    private final List<int[]> arcs = new ArrayList<>();
    private final Map<Integer, Integer> arrival = new HashMap<>();
    private final BitSet inJoint = new BitSet();
    /** Boxes and panels whose joints are not all recorded: only in these may a joint or an open end lead on. */
    private final Set<String> unfinished = new HashSet<>();

    private final Map<String, List<Integer>> jointsOf = new HashMap<>();
    private final Map<String, List<Integer>> opensOf = new HashMap<>();

    /** Of which box or panel a hub is the unknown. */
    final Map<Integer, String> hubOf = new HashMap<>();

    /** Boxes and panels where something is not known. */
    final Set<String> openBoxes = new TreeSet<>();

    int nodes;
    final int world;
    int[] start = new int[0];
    int[] to = new int[0];
    boolean any;
    /** By vertex: its second node, or -1. */
    private int[] arrivalOf = new int[0];

    MayGraph(Net net) {
        this.net = net;
        this.house = net.house;
        this.nodes = net.size;
        this.world = nodes++;
        findUnfinished();
        findJoints();
        findOpenEnds();
        for (Box b : house.boxes().values()) {
            open(b.name(), house.isComplete(b, Complete.JOINTS), house.isComplete(b, Complete.CABLES));
        }
        for (Panel p : house.panels().values()) {
            boolean landings = house.isComplete(p, Complete.LANDINGS);
            open(p.name(), landings, landings);
        }
        net.uncertainLinks.forEach(l -> {
            any = true;
            openBoxes.add(net.box(l[0]));
            arc(l[0], l[1]);
            arc(l[1], l[0]);
        });
        freeze();
    }

    private void findUnfinished() {
        for (Box b : house.boxes().values()) {
            if (!house.isComplete(b, Complete.JOINTS)) {
                unfinished.add(b.name());
            }
        }
        for (Panel p : house.panels().values()) {
            if (!house.isComplete(p, Complete.LANDINGS)) {
                unfinished.add(p.name());
            }
        }
    }

    private void findJoints() {
        for (int v = 0; v < net.size; v++) {
            Net.Kind k = net.kind[v];
            boolean landing = !net.panel(v).isEmpty()
                    && (k == Net.Kind.TERMINAL
                            || k == Net.Kind.NEUTRAL_BAR
                            || k == Net.Kind.GROUND_BAR
                            || k == Net.Kind.LUG);
            boolean capped = k == Net.Kind.JOINT
                    && net.start[v + 1] - net.start[v] == 1
                    && net.kind[net.adjacent[net.start[v]]] == Net.Kind.WIRE_END;
            if (landing || (k == Net.Kind.JOINT && !capped)) {
                in(net.box(v), jointsOf, v);
            }
            if (k == Net.Kind.JOINT) {
                for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                    inJoint.set(net.adjacent[i]);
                }
            }
        }
    }

    private void findOpenEnds() {
        for (Cable c : house.cables().values()) {
            Net.Wires wires = java.util.Objects.requireNonNull(net.wires.get(c.name()));
            for (int end = 0; end < 2; end++) {
                CableEnd where = c.ends().get(end);
                for (int i = 0; i < c.wires().size(); i++) {
                    int v = wires.end(i, end);
                    if (inJoint.get(v)) {
                        continue;
                    }
                    if (where instanceof CableEnd.At at) {
                        in(at.box(), opensOf, v);
                    } else if (where instanceof CableEnd.OneOf one) {
                        one.boxes().forEach(b -> in(b, opensOf, v));
                    } else {
                        any = true;
                        arc(v, world);
                        arc(world, arrivalOf(v));
                    }
                }
            }
        }
        house.sources().values().stream().filter(s -> s.at() != null).forEach(s -> {
            for (int v : Things.sourceVertices(net, s)) {
                if (!inJoint.get(v)) {
                    in(s.at(), opensOf, v);
                }
            }
        });
        for (Box b : house.boxes().values()) {
            if (!unfinished.contains(b.name())) {
                continue;
            }
            Integer metal = net.metal.get(b.name());
            if (metal != null && !inJoint.get(metal)) {
                in(b.name(), opensOf, metal);
            }
            for (Device d : b.devices().values()) {
                int v = java.util.Objects.requireNonNull(net.devices.get(d.name()))
                        .first();
                for (DeviceKind.Terminal t : d.kind().terminals()) {
                    if (!inJoint.get(v) && !d.unused().contains(t.name())) {
                        in(b.name(), opensOf, v);
                    }
                    v++;
                }
            }
        }
    }

    private void in(String box, Map<String, List<Integer>> of, int v) {
        if (unfinished.contains(box)) {
            of.computeIfAbsent(box, x -> new ArrayList<>()).add(v);
        }
    }

    private int arrivalOf(int v) {
        return arrival.computeIfAbsent(v, x -> {
            int a = nodes++;
            for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                arc(a, net.adjacent[i]);
            }
            return a;
        });
    }

    private void open(String box, boolean joints, boolean cables) {
        List<Integer> opens = opensOf.getOrDefault(box, List.of());
        if (cables && opens.isEmpty()) {
            return;
        }
        any = true;
        openBoxes.add(box);
        int fromJoint = nodes++;
        int fromEnd = nodes++;
        hubOf.put(fromJoint, box);
        hubOf.put(fromEnd, box);
        for (int e : opens) {
            arc(e, fromEnd);
            arc(fromEnd, arrivalOf(e));
            arc(fromJoint, arrivalOf(e));
        }
        if (!joints) {
            for (int j : jointsOf.getOrDefault(box, List.of())) {
                arc(j, fromJoint);
                arc(fromEnd, j);
            }
        }
        if (!cables) {
            arc(fromJoint, world);
            arc(fromEnd, world);
            arc(world, fromEnd);
        }
    }

    private void arc(int a, int b) {
        arcs.add(new int[] {a, b});
    }

    private void freeze() {
        if (!any) {
            return;
        }
        arrivalOf = new int[net.size];
        Arrays.fill(arrivalOf, -1);
        arrival.forEach((v, a) -> arrivalOf[v] = a);
        start = new int[nodes + 1];
        for (int[] a : arcs) {
            start[a[0] + 1]++;
        }
        for (int i = 0; i < nodes; i++) {
            start[i + 1] += start[i];
        }
        int[] at = Arrays.copyOf(start, nodes);
        to = new int[start[nodes]];
        for (int[] a : arcs) {
            to[at[a[0]]++] = a[1];
        }
    }

    /** Calls back with every node that a node leads to: netlist edges (buses and bars cut out) and may-arcs. */
    void forEachNext(int node, java.util.function.IntConsumer next) {
        if (node < net.size && !net.cut[node]) {
            for (int i = net.start[node]; i < net.start[node + 1]; i++) {
                if (!net.cut[net.adjacent[i]]) {
                    next.accept(net.adjacent[i]);
                }
            }
        }
        for (int i = start[node]; i < start[node + 1]; i++) {
            int u = to[i];
            next.accept(u);
        }
    }

    /** {@return the node for having come out of the unknown at an open end, or -1} */
    int arrivalNode(int vertex) {
        return vertex < arrivalOf.length ? arrivalOf[vertex] : -1;
    }

    /** {@return the open ends that may come out of the unknown, with the node for having done so} */
    Map<Integer, Integer> arrivals() {
        return arrival;
    }

    List<int[]> arcs() {
        return arcs;
    }
}
