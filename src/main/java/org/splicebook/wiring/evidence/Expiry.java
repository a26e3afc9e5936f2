package org.splicebook.wiring.evidence;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/**
 * Whether a sighting still stands: until something on a may-way between its points and any source changes (design ruling 11).
 *
 * <p>Anything of the record that differs on such a way counts as a change, also what was only added: whether it was there before cannot
 * be told. An added cable, box or device that is said to be older than the sighting ({@code since} or {@code before}) does not count.
 * Notes, labels and names of places never do.
 */
public final class Expiry {
    private Expiry() {}

    /**
     * What of the record changed on a way.
     *
     * @param what a cable, box, panel, breaker ({@code main.6}) or source by name
     * @param how what became of it
     */
    public record Change(String what, How how) {}

    /** What became of a thing. */
    public enum How {
        ADDED,
        REMOVED,
        CHANGED,
        /** It is said to have been put in since. */
        NEWER
    }

    /**
     * {@return what changed on the ways between a sighting's points and the sources; empty: it stands}
     *
     * @param then the record when it was made
     * @param now the record
     * @param sighting the sighting
     */
    public static List<Change> changes(House then, House now, Sighting sighting) {
        return changes(then, now, List.of(sighting)).getOrDefault(sighting.id(), List.of());
    }

    /** {@return for each sighting that no longer stands what changed, by id; all made on the same record} */
    public static Map<String, List<Change>> changes(House then, House now, List<Sighting> sightings) {
        Map<String, How> differs = Differences.between(then, now);
        Map<String, List<Change>> expired = new TreeMap<>();
        if (differs.isEmpty()) {
            return expired;
        }
        Ways before = new Ways(then);
        Ways after = new Ways(now);
        for (Sighting s : sightings) {
            Set<String> on = new TreeSet<>(before.of(s));
            on.addAll(after.of(s));
            List<Change> changed = new ArrayList<>();
            differs.forEach((what, how) -> {
                boolean older = how == How.ADDED && Differences.isOlder(now, what, s.date());
                if (on.contains(what) && !older) {
                    changed.add(new Change(what, how));
                }
            });
            if (!changed.isEmpty()) {
                expired.put(s.id(), changed);
            }
        }
        return expired;
    }

    /**
     * {@return for each sighting that no longer stands by the record as it is, what on its ways is said to have been put in on its day or
     * after, by id}
     */
    public static Map<String, List<Change>> newer(House now, List<Sighting> sightings) {
        Map<String, Map<String, Set<String>>> byDay = new TreeMap<>();
        sightings.forEach(s -> byDay.computeIfAbsent(s.date(), day -> Differences.newerThan(now, day)));
        Map<String, List<Change>> expired = new TreeMap<>();
        if (byDay.values().stream().allMatch(Map::isEmpty)) {
            return expired;
        }
        Ways ways = new Ways(now);
        for (Sighting s : sightings) {
            Map<String, Set<String>> newer = byDay.getOrDefault(s.date(), Map.of());
            List<Change> changed = new ArrayList<>();
            Set<String> on = newer.isEmpty() ? Set.of() : ways.of(s);
            newer.forEach((at, things) -> {
                if (on.contains(at)) {
                    things.forEach(t -> changed.add(new Change(t, How.NEWER)));
                }
            });
            if (!changed.isEmpty()) {
                expired.put(s.id(), changed);
            }
        }
        return expired;
    }

    /** {@return the sightings that still stand, all made on the record {@code then}} */
    public static List<Sighting> standing(House then, House now, List<Sighting> sightings) {
        Map<String, List<Change>> expired = changes(then, now, sightings);
        return sightings.stream().filter(s -> !expired.containsKey(s.id())).toList();
    }

    /** What may lie on the ways of one record. */
    private static final class Ways {
        private final House house;
        private final MayNet net;
        private final Points points;

        Ways(House house) {
            this.house = SeenOnly.of(house);
            this.net = MayNet.of(this.house);
            this.points = new Points(this.house, net);
        }

        /** The cables, boxes, panels and sources on some may-way between a sighting's points and a source. */
        Set<String> of(Sighting s) {
            Set<Integer> starts = new LinkedHashSet<>();
            for (String p : named(s)) {
                starts.addAll(points.nodes(p));
                MayNet.Handle h = points.handle(p);
                if (h != null) {
                    starts.addAll(h.poles());
                }
                if (house.cables().containsKey(p)) {
                    house.cables().get(p).wires().forEach(w -> starts.addAll(points.nodes(p + "." + w.name())));
                }
            }
            Set<String> on = new TreeSet<>();
            if (starts.isEmpty()) {
                return on;
            }
            flood(starts).stream().map(net::thingOf).filter(v -> v >= 0).forEach(v -> {
                String name = net.name(v);
                switch (net.kind(v)) {
                    case WIRE -> on.add(name.substring(0, name.indexOf('.')));
                    case SOURCE_POLE, SOURCE_NEUTRAL, SOURCE_GROUND -> on.add(name.substring(0, name.lastIndexOf('.')));
                    case POLE -> {
                        on.add(net.box(v));
                        MayNet.Handle h = net.handleOf(v);
                        on.addAll(h == null ? List.of() : h.breakers());
                    }
                    default -> {
                        if (!net.box(v).isEmpty()) {
                            on.add(net.box(v));
                        }
                    }
                }
            });
            return on;
        }

        private BitSet flood(Set<Integer> starts) {
            BitSet seen = new BitSet(net.nodes());
            int[] queue = new int[net.nodes()];
            int[] n = {0};
            starts.forEach(v -> {
                seen.set(v);
                queue[n[0]++] = v;
            });
            for (int i = 0; i < n[0]; i++) {
                int node = queue[i];
                if (isBar(node)) {
                    continue;
                }
                boolean bus = isBus(node);
                net.forEachNext(node, u -> {
                    // From a bus on towards its supply, not out over its other breakers.
                    if (!seen.get(u) && !(bus && u < net.size() && net.kind(u) == MayNet.Kind.POLE)) {
                        seen.set(u);
                        queue[n[0]++] = u;
                    }
                });
            }
            return seen;
        }

        private boolean isBus(int node) {
            return node < net.size() && net.kind(node) == MayNet.Kind.BUS;
        }

        private boolean isBar(int node) {
            if (node >= net.size()) {
                return false;
            }
            return switch (net.kind(node)) {
                case NEUTRAL_BAR, GROUND_BAR, SOURCE_NEUTRAL, SOURCE_GROUND -> true;
                default -> false;
            };
        }
    }

    /** The points a sighting speaks of. */
    static List<String> named(Sighting s) {
        List<String> named = new ArrayList<>(s.withOff());
        named.addAll(s.seen().points());
        return named;
    }
}
