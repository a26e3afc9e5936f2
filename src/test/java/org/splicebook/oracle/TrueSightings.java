package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Lever;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.evidence.Evidence;

/** What somebody would see who walks through the house as it is with some breakers off: true readings, not all of them worth much. */
final class TrueSightings {
    private static final int MOST_POSITIONS = 4;

    private final House house;
    private final Netlist net;
    private final ShutOffTruth truth;
    private final Random random;
    private final List<Sighting> all = new ArrayList<>();
    private int passes;

    TrueSightings(House house, long seed) {
        this.house = house;
        this.truth = new ShutOffTruth(house);
        this.net = truth.net;
        this.random = new Random(seed * 101 + 7);
    }

    private boolean chance(double p) {
        return random.nextDouble() < p;
    }

    /** {@return the sightings of passes with each breaker off twice, at points anywhere, the switches as they happen to be} */
    TrueSightings anywhere(int points) {
        List<String> all = new ArrayList<>();
        net.loads.forEach(l -> all.add(l.id()));
        net.vertices.stream().filter(v -> v.kind == Kind.WIRE_END).forEach(v -> all.add(v.name));
        for (int round = 0; round < 2; round++) {
            for (String breaker : net.breakers.keySet()) {
                List<String> read = new ArrayList<>();
                for (int i = 0; i < points; i++) {
                    read.add(all.get(random.nextInt(all.size())));
                }
                pass(List.of(breaker), read, Map.of());
            }
        }
        return this;
    }

    /** {@return those sightings, and of every wire end in a box with each breaker off twice, in the positions of switches asked for} */
    TrueSightings everyWireOf(String box, House record) {
        return each(
                record,
                truth.contents(box).stream()
                        .map(net.vertices::get)
                        .filter(x -> x.kind == Kind.WIRE_END)
                        .map(x -> x.name)
                        .toList());
    }

    /** {@return the same of every wire end in any box that can be live} */
    TrueSightings everyHotWire(House record) {
        BitSet live = truth.liveWith(new BitSet(), -1, false);
        Set<String> ends = new TreeSet<>();
        record.boxes()
                .keySet()
                .forEach(b -> truth.contents(b).stream()
                        .filter(v -> live.get(v) && net.vertices.get(v).kind == Kind.WIRE_END)
                        .forEach(v -> ends.add(net.vertices.get(v).name)));
        return each(record, List.copyOf(ends));
    }

    private TrueSightings each(House record, List<String> ends) {
        Map<String, List<Map<String, String>>> wanted = Evidence.positionsToTest(record, ends);
        Map<List<Map<String, String>>, List<String>> byPositions = new java.util.LinkedHashMap<>();
        ends.forEach(e -> byPositions
                .computeIfAbsent(wanted.getOrDefault(e, List.of()), k -> new ArrayList<>())
                .add(e));
        // Nobody walks through a house in so many positions of its switches.
        byPositions.keySet().removeIf(positions -> positions.size() > MOST_POSITIONS);
        byPositions.forEach((positions, points) -> positions.forEach(p -> {
            for (int round = 0; round < 3; round++) {
                net.breakers.keySet().forEach(b -> pass(List.of(b), points, p));
            }
        }));
        return this;
    }

    List<Sighting> all() {
        return all;
    }

    /** Breakers that move with these: of one tie or one pull-out. */
    private Set<String> withMates(List<String> off) {
        Set<String> found = new TreeSet<>(off);
        boolean more = true;
        while (more) {
            more = false;
            for (Panel p : house.panels().values()) {
                List<List<String>> groups = new ArrayList<>(p.ties());
                groups.addAll(p.pullOuts().values());
                for (List<String> g : groups) {
                    Set<String> keys = new TreeSet<>();
                    p.breakers().values().stream()
                            .filter(b -> b.spaces().stream().anyMatch(g::contains))
                            .forEach(b -> keys.add(p.name() + "." + b.key()));
                    if (keys.stream().anyMatch(found::contains)) {
                        more |= found.addAll(keys);
                    }
                }
            }
        }
        return found;
    }

    private void pass(List<String> off, List<String> points, Map<String, String> wanted) {
        String pass = "p" + ++passes;
        int[] position = new int[net.levers.size()];
        Map<String, String> levers = new TreeMap<>();
        for (int i = 0; i < position.length; i++) {
            Lever l = net.levers.get(i);
            String device =
                    l.exclusive() ? l.name() : l.name().substring(0, l.name().indexOf('/'));
            int asked = l.exclusive() ? -1 : l.positions().indexOf(wanted.getOrDefault(device, ""));
            // The main rather than the generator is closed, most of the time.
            position[i] = asked >= 0
                    ? asked
                    : l.exclusive() && chance(0.9)
                            ? 0
                            : random.nextInt(l.positions().size());
            if (!l.exclusive() && chance(0.97)) {
                levers.put(device, l.positions().get(position[i]));
            }
        }
        BitSet none = new BitSet();
        BitSet gone = truth.poles(withMates(off));
        State on = new State(new World(net, position, none));
        State during = new State(new World(net, position, gone));
        String instrument = chance(0.85) ? "meter" : chance(0.5) ? "contactless probe" : null;
        for (String point : points) {
            Sighting.Reading before = chance(0.03) ? Sighting.Reading.NOT_TRIED : on.read(point);
            Sighting.Reading read = during.read(point);
            if ("contactless probe".equals(instrument) && chance(0.3)) {
                read = chance(0.5) ? Sighting.Reading.LIT : Sighting.Reading.NOT_LIT;
            }
            all.add(new Sighting(
                    "s" + all.size(),
                    "2026-03-14",
                    off,
                    levers,
                    instrument,
                    chance(0.03) ? null : pass,
                    null,
                    new Sighting.Lit(point, before, read, before),
                    null));
        }
    }

    /** Voltages in one world. A load conducts or is off, nobody knows. */
    private final class State {
        private final Map<String, BitSet> liveFrom = new TreeMap<>();
        private final BitSet direct = new BitSet();
        private final BitSet held = new BitSet();
        private final BitSet through;

        State(World world) {
            for (Vertex v : net.vertices) {
                if (Feeders.isHotSource(v)) {
                    BitSet b = flood(world, v.id);
                    liveFrom.merge(v.name, b, (x, y) -> x);
                    direct.or(b);
                }
            }
            for (Vertex v : net.vertices) {
                if (v.kind == Kind.NEUTRAL_BAR || v.kind == Kind.GROUND_BAR) {
                    held.or(flood(world, v.id));
                }
            }
            BitSet gone = new BitSet();
            net.vertices.stream().filter(v -> !world.conducts(v.id)).forEach(v -> gone.set(v.id));
            through = truth.liveWith(gone, -1, true);
        }

        private BitSet flood(World w, int start) {
            BitSet seen = new BitSet();
            List<Integer> queue = new ArrayList<>(List.of(start));
            seen.set(start);
            for (int i = 0; i < queue.size(); i++) {
                int v = queue.get(i);
                Kind k = net.vertices.get(v).kind;
                if (v != start && (k == Kind.NEUTRAL_BAR || k == Kind.GROUND_BAR)) {
                    continue;
                }
                for (int u : net.next[v]) {
                    if (!seen.get(u) && w.conducts(u)) {
                        seen.set(u);
                        queue.add(u);
                    }
                }
            }
            return seen;
        }

        private Sighting.Reading faint() {
            return chance(0.5) ? Sighting.Reading.NOT_LIT : chance(0.9) ? Sighting.Reading.DIM : Sighting.Reading.LIT;
        }

        Sighting.Reading read(String point) {
            for (Load l : net.loads) {
                if (l.id().equals(point)) {
                    return load(l);
                }
            }
            int v = net.at(point);
            return direct.get(v)
                    ? Sighting.Reading.LIT
                    : through.get(v) && !held.get(v) ? faint() : Sighting.Reading.NOT_LIT;
        }

        private Sighting.Reading load(Load l) {
            boolean faint = false;
            for (int[] pair : l.pairs()) {
                @Nullable String a = leg(pair[0]);
                @Nullable String b = leg(pair[1]);
                boolean differ = (a == null) != (b == null) || (a != null && !a.equals(b));
                boolean closed = (a != null || held.get(pair[0])) && (b != null || held.get(pair[1]));
                if (differ && closed) {
                    return Sighting.Reading.LIT;
                }
                faint |= through.get(pair[0]) || through.get(pair[1]);
            }
            return faint ? faint() : Sighting.Reading.NOT_LIT;
        }

        private @Nullable String leg(int v) {
            return liveFrom.entrySet().stream()
                    .filter(e -> e.getValue().get(v))
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .orElse(null);
        }
    }
}
