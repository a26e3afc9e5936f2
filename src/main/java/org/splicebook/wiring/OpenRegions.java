package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Which regions something not recorded may join, and what is in them. */
final class OpenRegions {
    /** By region: the number of its open region, or -1. */
    final int[] group;

    private final Reach reach;
    private final Net net;
    private final MayGraph graph;

    OpenRegions(Reach reach, MayGraph graph) {
        this.reach = reach;
        this.net = reach.net;
        this.graph = graph;
        this.group = new int[reach.regions.all.size()];
        Arrays.fill(group, -1);
        if (graph.any) {
            joinRegions();
        }
    }

    /** Regions that may-arcs join are one open region. */
    private void joinRegions() {
        int n = reach.regions.all.size();
        int[] parent = new int[n + graph.nodes - net.size];
        Arrays.setAll(parent, i -> i);
        BitSet touched = new BitSet();
        for (int[] a : graph.arcs()) {
            int x = slot(a[0], n);
            int y = slot(a[1], n);
            if (x >= 0 && y >= 0) {
                touched.set(x);
                touched.set(y);
                parent[find(parent, x)] = find(parent, y);
            }
        }
        Map<Integer, Integer> ids = new HashMap<>();
        for (int r = 0; r < n; r++) {
            if (touched.get(r)) {
                group[r] = ids.computeIfAbsent(find(parent, r), k -> ids.size() + 1);
            }
        }
    }

    /** The union-find slot of a node: its region, or its own for hubs; buses and bars have none. */
    private int slot(int node, int regionCount) {
        if (node >= net.size) {
            return regionCount + node - net.size;
        }
        return net.cut[node] ? -1 : reach.regions.of[node];
    }

    private static int find(int[] parent, int x) {
        int v = x;
        while (parent[v] != v) {
            parent[v] = parent[parent[v]];
            v = parent[v];
        }
        return v;
    }

    /** {@return the open regions as told} */
    List<Wiring.OpenRegion> told() {
        Map<Integer, Set<String>> boxes = new TreeMap<>();
        Map<Integer, Set<String>> breakers = new TreeMap<>();
        Map<Integer, Set<String>> cables = new TreeMap<>();
        Map<Integer, Set<String>> lps = new TreeMap<>();
        for (int v = 0; v < net.size; v++) {
            if (net.cut[v] || group[reach.regions.of[v]] < 0) {
                continue;
            }
            int g = group[reach.regions.of[v]];
            Set<String> open = boxes.computeIfAbsent(g, k -> new TreeSet<>());
            if (graph.openBoxes.contains(net.box(v))) {
                open.add(net.box(v));
            }
            if (net.kind[v] == Net.Kind.POLE) {
                breakers.computeIfAbsent(g, k -> new TreeSet<>()).add(net.breakerOf.getOrDefault(v, net.name(v)));
            } else if (net.kind[v] == Net.Kind.WIRE) {
                cables.computeIfAbsent(g, k -> new TreeSet<>()).add(net.cableName(v));
            }
        }
        for (Net.LoadPoint lp : net.loadPoints) {
            for (int t : lp.terminals()) {
                int g = group[reach.regions.of[t]];
                if (g >= 0) {
                    lps.computeIfAbsent(g, k -> new TreeSet<>()).add(lp.id());
                }
            }
        }
        Set<String> onAssumed = net.assumedFed.isEmpty() ? Set.of() : onAssumedSupply();
        boxes.keySet().forEach(g -> lps.computeIfAbsent(g, k -> new TreeSet<>()).addAll(onAssumed));
        List<Wiring.OpenRegion> found = new ArrayList<>();
        boxes.forEach((g, names) -> found.add(new Wiring.OpenRegion(
                "open-" + g,
                List.copyOf(names),
                List.copyOf(breakers.getOrDefault(g, Set.of())),
                List.copyOf(cables.getOrDefault(g, Set.of())),
                List.copyOf(lps.getOrDefault(g, Set.of())))));
        return found;
    }

    /** {@return the load points fed from panels whose supply is recorded only in part: they may rely on anything that is open} */
    Set<String> onAssumedSupply() {
        Set<String> found = new TreeSet<>();
        for (List<Part> parts : reach.partsOfLoadPoint) {
            for (Part p : parts) {
                for (int[][] byTerminal : p.hotRoots) {
                    for (int[] roots : byTerminal == null ? new int[0][] : byTerminal) {
                        for (int root : roots == null ? new int[0] : roots) {
                            if (net.assumedFed.contains(net.panel(root))) {
                                found.add(net.loadPoints.get(p.loadPoint).id());
                            }
                        }
                    }
                }
            }
        }
        return found;
    }
}
