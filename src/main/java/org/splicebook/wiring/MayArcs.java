package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.Basis;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/** What may lead on in {@link MayNet} beside the recorded wires: through what is not recorded, and across loads. */
final class MayArcs {
    private final Net net;
    private final MayGraph graph;
    private final List<int[]> arcs = new ArrayList<>();

    private MayArcs(Net net, MayGraph graph) {
        this.net = net;
        this.graph = graph;
    }

    /** {@return the arcs of design ruling 12, and those of cables that nobody saw and breakers that nobody listed} */
    static List<int[]> unrecorded(Net net, MayGraph graph) {
        MayArcs m = new MayArcs(net, graph);
        m.arcs.addAll(graph.arcs());
        m.arcs.removeIf(a -> m.isSourceLug(a[0]) || m.isSourceLug(a[1]));
        m.cablesNobodySaw();
        net.house.panels().values().forEach(p -> m.unlistedBreakers(net.house, p));
        return m.arcs;
    }

    /** {@return the pairs of terminals across loads and transformers, both ways} */
    static List<int[]> acrossLoads(Net net) {
        List<int[]> across = new ArrayList<>();
        for (int[] l : net.loadEdges) {
            both(across, l[0], l[1]);
        }
        net.house.boxes().values().forEach(b -> b.devices().values().forEach(d -> windings(net, d, across)));
        return across;
    }

    private static void both(List<int[]> to, int a, int b) {
        to.add(new int[] {a, b});
        to.add(new int[] {b, a});
    }

    /**
     * Whether a node is a lug that a recorded source feeds by itself. What may be tapped ahead of the main nothing listed can clear, so it
     * is left to those who say that something unlisted may feed: where such a tap may be, the world is reached too.
     */
    private boolean isSourceLug(int node) {
        if (node >= net.size || net.kind[node] != Net.Kind.LUG) {
            return false;
        }
        for (int i = net.start[node]; i < net.start[node + 1]; i++) {
            int u = net.adjacent[i];
            if (net.kind[u] == Net.Kind.SUPPLY_LINK && !net.name(u).startsWith("?.")) {
                return true;
            }
        }
        return false;
    }

    /** What was taken for one cable without having been seen may be two, and lead anywhere. */
    private void cablesNobodySaw() {
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.WIRE && net.basis(v) != Basis.SEEN) {
                both(arcs, v, graph.world);
            }
        }
    }

    /** Where not every breaker of a panel is listed, what is open in it may hang on one that is not. */
    private void unlistedBreakers(House house, Panel p) {
        if (house.isComplete(p, Complete.BREAKERS)) {
            return;
        }
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.BUS && net.panel(v).equals(p.name())) {
                int bus = v;
                graph.hubOf.forEach((hub, box) -> {
                    if (box.equals(p.name())) {
                        both(arcs, hub, bus);
                    }
                });
            }
        }
    }

    /** A transformer passes power both ways between its windings. */
    private static void windings(Net net, Device d, List<int[]> across) {
        List<Integer> secondary = new ArrayList<>();
        List<Integer> primary = new ArrayList<>();
        for (DeviceKind.Terminal t : d.kind().terminals()) {
            int v = java.util.Objects.requireNonNull(net.devices.get(d.name())).terminal(t.name());
            if (t.role() == DeviceKind.Role.SECONDARY) {
                secondary.add(v);
            } else if (t.role() != DeviceKind.Role.GROUND && t.role() != DeviceKind.Role.METAL) {
                primary.add(v);
            }
        }
        for (int s : secondary) {
            primary.forEach(p -> both(across, s, p));
            secondary.stream().filter(other -> other != s).forEach(other -> across.add(new int[] {s, other}));
        }
    }
}
