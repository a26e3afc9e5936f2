package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;

/** Judges each neutral island and each sensor's boundary (design ruling 9). */
final class Crossings {
    private final Reach reach;
    private final Net net;
    private final NeutralIslands islands;
    private final Loops loops;
    private final LoadPoints loadPoints;
    private final Protections protections;
    private final List<List<LoadPoints.Fed>> feeds;
    /** By cable, the breakers that its wires are hot of; found when first asked for. */
    private @Nullable Map<Integer, Set<String>> breakersIn;

    private final List<Crossing> found = new ArrayList<>();

    Crossings(
            Reach reach,
            NeutralIslands islands,
            Loops loops,
            LoadPoints loadPoints,
            Protections protections,
            List<List<LoadPoints.Fed>> feeds) {
        this.reach = reach;
        this.net = reach.net;
        this.islands = islands;
        this.loops = loops;
        this.loadPoints = loadPoints;
        this.protections = protections;
        this.feeds = feeds;
    }

    List<Crossing> all() {
        islands.all.forEach(this::island);
        acrossProtection();
        found.addAll(new GroundTies(reach).all());
        found.sort(Comparator.comparing(Crossing::kind)
                .thenComparing(Crossing::island)
                .thenComparing(c -> c.box() == null ? "" : c.box())
                .thenComparing(c -> c.device() == null ? "" : c.device()));
        return found;
    }

    private void island(NeutralIslands.Island island) {
        Set<Integer> straight = new TreeSet<>();
        Map<String, Set<Integer>> borrowed = new TreeMap<>();
        Map<String, Set<Integer>> elsewhere = new TreeMap<>();
        island.returns.forEach((lp, roots) -> {
            Loops.Parting p = loops.parting(lp, roots);
            if (p == null) {
                straight.add(lp);
            } else {
                (carriesOthers(island, lp) ? borrowed : elsewhere)
                        .computeIfAbsent(p.box(), k -> new TreeSet<>())
                        .add(lp);
            }
        });
        Set<String> allPoles = island.poles(feeds);
        borrowed.forEach((box, strays) -> add(CrossingKind.BORROWED, island.id, allPoles, strays, box, null));
        elsewhere.forEach((box, strays) -> add(
                CrossingKind.RETURN_IN_ANOTHER_CABLE,
                island.id,
                NeutralIslands.poles(strays, feeds),
                strays,
                box,
                null));
        if (island.landings.size() > 1 && breakers(allPoles).size() > 1) {
            add(CrossingKind.ISLANDS_JOINED, island.id, allPoles, island.returns.keySet(), null, null);
            return;
        }
        Set<String> poles = straight.size() == island.returns.size() ? allPoles : NeutralIslands.poles(straight, feeds);
        if (poles.size() > 1) {
            add(multiwire(poles), island.id, poles, straight, null, null);
        }
    }

    /** Whether the island carries, or a home-run cable of it feeds, returns of a breaker that is not the load point's own. */
    private boolean carriesOthers(NeutralIslands.Island island, int loadPoint) {
        Set<String> own = breakers(NeutralIslands.poles(List.of(loadPoint), feeds));
        return !own.containsAll(breakers(island.poles(feeds)))
                || homeRuns(island).stream()
                        .anyMatch(cable -> !own.containsAll(breakersIn().getOrDefault(cable, Set.of())));
    }

    /** The cables of the wires that land on a bar. */
    private Set<Integer> homeRuns(NeutralIslands.Island island) {
        Set<Integer> cables = new TreeSet<>();
        for (int joint : island.joints) {
            for (int k = net.start[joint]; k < net.start[joint + 1]; k++) {
                if (net.kind[net.adjacent[k]] == Net.Kind.WIRE_END) {
                    cables.add(net.cable[net.adjacent[k]]);
                }
            }
        }
        return cables;
    }

    private Map<Integer, Set<String>> breakersIn() {
        Map<Integer, Set<String>> known = breakersIn;
        if (known != null) {
            return known;
        }
        Map<Integer, Set<String>> found = new HashMap<>();
        for (int v = 0; v < net.size; v++) {
            for (int i = 0; i < reach.wireUses.size(v); i++) {
                int root = reach.wireUses.root(v, i);
                if (root >= 0) {
                    found.computeIfAbsent(net.cable[v], k -> new TreeSet<>()).add(loadPoints.breaker(root));
                }
            }
        }
        breakersIn = found;
        return found;
    }

    private Set<String> breakers(Collection<String> poles) {
        Set<String> names = new TreeSet<>();
        poles.forEach(p -> names.add(breakerOf(p)));
        return names;
    }

    private String breakerOf(String pole) {
        Integer v = net.poles.get(pole);
        return v == null ? pole : net.breakerOf.getOrDefault(v, pole);
    }

    private CrossingKind multiwire(Set<String> poles) {
        Map<Set<String>, Integer> legs = new HashMap<>();
        for (String pole : poles) {
            Integer v = net.poles.get(pole);
            legs.merge(v == null ? Set.of(pole) : loadPoints.sourcePolesOf(v), 1, Integer::sum);
        }
        if (legs.values().stream().anyMatch(n -> n > 1)) {
            return CrossingKind.SHARED_ON_ONE_LEG;
        }
        return openedTogether(poles) ? CrossingKind.MULTIWIRE : CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT;
    }

    /** Whether one hand opens all these poles: what it throws is then the same from whichever of their breakers it is told. */
    private boolean openedTogether(Set<String> poles) {
        Integer first = net.poles.get(poles.iterator().next());
        Panel p = first == null ? null : net.house.panels().get(net.panel(first));
        if (first == null || p == null) {
            return false;
        }
        String space = net.name(first).substring(p.name().length() + 1);
        for (Breaker b : p.breakers().values()) {
            if (!b.spaces().contains(space)) {
                continue;
            }
            Set<String> together = new Thrown(p)
                    .with(b).stream()
                            .flatMap(x -> x.spaces().stream())
                            .map(at -> p.name() + "." + at)
                            .collect(Collectors.toSet());
            if (together.containsAll(poles)) {
                return true;
            }
        }
        return false;
    }

    private void acrossProtection() {
        Map<Protections.Sensor, Set<Integer>> strays = new java.util.LinkedHashMap<>();
        for (int lp = 0; lp < net.loadPoints.size(); lp++) {
            for (Protections.Sensor s : protections.sensorsPassed(lp)) {
                if (!s.neutral) {
                    continue;
                }
                Protections.Passing p = protections.passing(lp, s, false);
                if (p.hot() && p.somewhere() && !p.everywhere()) {
                    strays.computeIfAbsent(s, k -> new TreeSet<>()).add(lp);
                }
            }
        }
        strays.forEach((s, lps) -> {
            String island = java.util.Arrays.stream(s.vertices)
                    .mapToObj(islands::of)
                    .filter(java.util.Objects::nonNull)
                    .map(i -> i.id)
                    .sorted()
                    .findFirst()
                    .orElse("");
            add(CrossingKind.ACROSS_PROTECTION, island, NeutralIslands.poles(lps, feeds), lps, s.box, s.thing.name());
        });
    }

    private void add(
            CrossingKind kind,
            String island,
            Set<String> poles,
            Collection<Integer> lps,
            @Nullable String box,
            @Nullable String device) {
        found.add(new Crossing(
                kind,
                island,
                List.copyOf(poles),
                lps.stream().map(lp -> net.loadPoints.get(lp).id()).sorted().toList(),
                box,
                device,
                Sureness.SHOWN));
    }
}
