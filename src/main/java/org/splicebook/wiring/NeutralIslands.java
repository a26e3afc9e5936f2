package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The neutral islands, and which load points return on them. */
final class NeutralIslands {
    /** An island as vertices. */
    static final class Island {
        /** The first of its landings by name. */
        String id = "";

        final Set<String> landings = new TreeSet<>();
        /** The joints of these. */
        final List<Integer> joints = new ArrayList<>();

        final List<String> wires = new ArrayList<>();
        /** Load points that return on it, with the roots by which. */
        final Map<Integer, Set<Integer>> returns = new TreeMap<>();

        private @Nullable Set<String> poles;

        /** {@return the poles that feed these} */
        Set<String> poles(List<List<LoadPoints.Fed>> feeds) {
            if (poles == null) {
                poles = NeutralIslands.poles(returns.keySet(), feeds);
            }
            return poles;
        }
    }

    final List<Island> all = new ArrayList<>();
    /** By vertex: the island that it is in, or null. */
    private final @Nullable Island[] in;

    private final Net net;
    private final Reach reach;

    NeutralIslands(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.in = new Island[net.size];
        int[] queue = new int[net.size];
        for (int v = 0; v < net.size; v++) {
            if (in[v] == null && isLanding(v)) {
                collect(v, queue);
            }
        }
        all.sort(Comparator.comparing(i -> i.id));
        for (List<Part> parts : reach.partsOfLoadPoint) {
            parts.forEach(this::returns);
        }
    }

    private boolean joins(int v) {
        return !net.cut[v] && net.lever[v] < 0;
    }

    private boolean isLanding(int v) {
        if (net.kind[v] != Net.Kind.JOINT) {
            return false;
        }
        Regions.Region r = reach.regions.all.get(reach.regions.of[v]);
        if (r.groundOnly || r.neutralFeeder || r.hotFeeder) {
            return false;
        }
        return touchesBar(v) || touchesNeutralLink(v);
    }

    /** The island of a landing: all that it joins, buses, bars and lever links left out. */
    private void collect(int landing, int[] queue) {
        Island island = new Island();
        int n = 0;
        queue[n++] = landing;
        in[landing] = island;
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            if (isLanding(v)) {
                island.joints.add(v);
                island.landings.add(net.name(v));
            } else if (net.kind[v] == Net.Kind.WIRE) {
                island.wires.add(net.name(v));
            }
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (in[u] == null && joins(u)) {
                    in[u] = island;
                    queue[n++] = u;
                }
            }
        }
        island.id = island.landings.iterator().next();
        island.wires.sort(Comparator.naturalOrder());
        all.add(island);
    }

    private boolean touchesBar(int v) {
        for (int i = net.start[v]; i < net.start[v + 1]; i++) {
            if (net.kind[net.adjacent[i]] == Net.Kind.NEUTRAL_BAR) {
                return true;
            }
        }
        return false;
    }

    private boolean touchesNeutralLink(int joint) {
        for (int i = net.start[joint]; i < net.start[joint + 1]; i++) {
            int t = net.adjacent[i];
            if (net.kind[t] == Net.Kind.TERMINAL) {
                for (int k = net.start[t]; k < net.start[t + 1]; k++) {
                    if (net.kind[net.adjacent[k]] == Net.Kind.NEUTRAL_LINK) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    /** {@return the island that a vertex is in, or null} */
    @Nullable
    Island of(int vertex) {
        return in[vertex];
    }

    private void returns(Part p) {
        for (int c = 0; c < p.cases(); c++) {
            for (int i = 0; i < p.terminals.length; i++) {
                if ((p.neutral[c] >> i & 1) == 0 || (p.hot[c] >> i & 1) != 0) {
                    continue;
                }
                for (int root : p.neutralRoots[c][i]) {
                    Island island = of(root);
                    if (island != null) {
                        island.returns
                                .computeIfAbsent(p.loadPoint, k -> new TreeSet<>())
                                .add(root);
                    }
                }
            }
        }
    }

    /** {@return the islands as told} */
    List<NeutralIsland> told(List<List<LoadPoints.Fed>> feeds) {
        List<NeutralIsland> found = new ArrayList<>();
        for (Island i : all) {
            found.add(new NeutralIsland(
                    i.id,
                    List.copyOf(i.landings),
                    List.copyOf(i.wires),
                    List.copyOf(i.poles(feeds)),
                    i.returns.keySet().stream()
                            .map(lp -> net.loadPoints.get(lp).id())
                            .sorted()
                            .toList()));
        }
        return found;
    }

    /** {@return the poles that feed these load points as recorded} */
    static Set<String> poles(Collection<Integer> loadPoints, List<List<LoadPoints.Fed>> feeds) {
        Set<String> poles = new TreeSet<>();
        String last = "";
        for (int lp : loadPoints) {
            for (LoadPoints.Fed f : feeds.get(lp)) {
                if (f.feed().sureness() != Sureness.MAY && !f.feed().pole().equals(last)) {
                    last = f.feed().pole();
                    poles.add(last);
                }
            }
        }
        return poles;
    }
}
