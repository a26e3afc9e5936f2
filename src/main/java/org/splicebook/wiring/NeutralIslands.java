package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
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
        final String id;
        final Set<String> landings;
        /** The joints of these. */
        final List<Integer> joints;

        final Set<String> wires = new TreeSet<>();
        /** Load points that return on it, with the roots by which. */
        final Map<Integer, Set<Integer>> returns = new TreeMap<>();

        Island(Set<String> landings, List<Integer> joints) {
            this.id = landings.iterator().next();
            this.landings = landings;
            this.joints = joints;
        }
    }

    final List<Island> all = new ArrayList<>();
    /** Which island a vertex is in; null for none. */
    final Map<Integer, Island> byComponent = new HashMap<>();

    private final int[] component;
    private final Net net;
    private final Reach reach;

    NeutralIslands(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.component = new int[net.size];
        Arrays.fill(component, -1);
        int count = flood();
        collect(count);
        for (List<Part> parts : reach.partsOfLoadPoint) {
            parts.forEach(this::returns);
        }
    }

    /** Components with buses, bars and lever links left out. */
    private int flood() {
        int[] queue = new int[net.size];
        int count = 0;
        for (int s = 0; s < net.size; s++) {
            if (!joins(s) || component[s] >= 0) {
                continue;
            }
            int n = 0;
            queue[n++] = s;
            component[s] = count;
            for (int i = 0; i < n; i++) {
                for (int k = net.start[queue[i]]; k < net.start[queue[i] + 1]; k++) {
                    int u = net.adjacent[k];
                    if (joins(u) && component[u] < 0) {
                        component[u] = count;
                        queue[n++] = u;
                    }
                }
            }
            count++;
        }
        return count;
    }

    private boolean joins(int v) {
        return !net.cut[v] && net.lever[v] < 0;
    }

    private void collect(int count) {
        @Nullable Island[] found = new Island[count];
        Map<Integer, List<Integer>> landings = new TreeMap<>();
        for (int v = 0; v < net.size; v++) {
            if (component[v] < 0 || net.kind[v] != Net.Kind.JOINT) {
                continue;
            }
            Regions.Region r = reach.regions.all.get(reach.regions.of[v]);
            if (r.groundOnly || r.neutralFeeder || r.hotFeeder) {
                continue;
            }
            if (touchesBar(v) || touchesNeutralLink(v)) {
                landings.computeIfAbsent(component[v], k -> new ArrayList<>()).add(v);
            }
        }
        landings.forEach((c, joints) -> {
            Set<String> names = new TreeSet<>();
            joints.forEach(j -> names.add(net.name(j)));
            Island i = new Island(names, joints);
            found[c] = i;
            byComponent.put(c, i);
            all.add(i);
        });
        for (int v = 0; v < net.size; v++) {
            Island i = net.kind[v] == Net.Kind.WIRE && component[v] >= 0 ? found[component[v]] : null;
            if (i != null) {
                i.wires.add(net.name(v));
            }
        }
        all.sort(java.util.Comparator.comparing(i -> i.id));
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
        return component[vertex] < 0 ? null : byComponent.get(component[vertex]);
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
                    List.copyOf(poles(i.returns.keySet(), feeds)),
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
        for (int lp : loadPoints) {
            for (LoadPoints.Fed f : feeds.get(lp)) {
                if (f.feed().sureness() != Sureness.MAY) {
                    poles.add(f.feed().pole());
                }
            }
        }
        return poles;
    }
}
