package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;

/** Which protective functions every load point has, and by what. */
final class Protections {
    /** A thing that watches currents. */
    static final class Sensor {
        /** Breaker or device. */
        final Thing thing;
        /** Its functions beside overcurrent. */
        final Set<Protection> functions;
        /** Where it watches, in order. */
        final int[] vertices;
        /** Whether it watches the neutral too. */
        final boolean neutral;
        /** Where it is. */
        final String box;

        Sensor(Thing thing, Set<Protection> functions, int[] vertices, boolean neutral, String box) {
            this.thing = thing;
            this.functions = functions;
            this.vertices = vertices;
            this.neutral = neutral;
            this.box = box;
        }

        boolean isAt(int vertex) {
            for (int v : vertices) {
                if (v == vertex) {
                    return true;
                }
            }
            return false;
        }

        boolean isAtOneOf(Set<Integer> some) {
            for (int v : vertices) {
                if (some.contains(v)) {
                    return true;
                }
            }
            return false;
        }
    }

    /**
     * How the currents of a load point pass a sensor.
     *
     * @param hot whether it is live in some case at all
     * @param everywhere every way of every current-carrying conductor, in every case, all in one direction: with only the whites
     *     swapped between line and load the sensor sees twice the current
     * @param somewhere some way of some conductor
     * @param ever all of them at once in some case
     */
    record Passing(boolean hot, boolean everywhere, boolean somewhere, boolean ever) {}

    private static final int[][] NO_LINES = {};

    private final Reach reach;
    private final Ways ways;
    private final Net net;
    private final Map<Integer, List<Sensor>> byVertex = new HashMap<>();
    /** By load point. */
    private final List<Set<Sensor>> passed = new ArrayList<>();

    private final Map<Thing, int[]> overcurrentVertices = new HashMap<>();
    private final Map<Long, List<Thing>> trunkLines = new HashMap<>();

    /**
     * @param breakers mains and breakers, with their poles
     */
    Protections(Reach reach, Ways ways, List<Things.Lossy> breakers) {
        this.reach = reach;
        this.ways = ways;
        this.net = reach.net;
        breakers.forEach(x -> overcurrentVertices.put(x.thing(), x.vertices()));
        for (Panel p : net.house.panels().values()) {
            for (Breaker b : p.breakers().values()) {
                if (!b.protects().isEmpty()) {
                    List<Integer> vertices = new ArrayList<>(Things.poles(net, p, b));
                    Integer link = net.byTerminal.get(p.name() + "/neutral/" + b.key());
                    if (link != null) {
                        vertices.add(link);
                    }
                    Thing thing = new Thing(ThingKind.BREAKER, p.name() + "." + b.key());
                    add(new Sensor(thing, b.protects(), Regions.ints(vertices), b.neutralTerminal(), p.name()));
                }
            }
        }
        for (Box box : net.house.boxes().values()) {
            for (Device d : box.devices().values()) {
                if (d.kind().guard() != null) {
                    add(sensor(box, d, d.kind().guard()));
                }
            }
        }
        reach.partsOfLoadPoint.forEach(parts -> passed.add(findSensors(parts)));
    }

    private void add(Sensor s) {
        for (int v : s.vertices) {
            byVertex.computeIfAbsent(v, k -> new ArrayList<>(1)).add(s);
        }
    }

    private Sensor sensor(Box box, Device d, DeviceKind.Guard guard) {
        List<Integer> vertices = new ArrayList<>();
        for (DeviceKind.Link l : d.kind().links()) {
            if (l.when() == DeviceKind.When.GUARDED) {
                vertices.addAll(Things.between(net, d.name() + "." + l.a(), d.name() + "." + l.b()));
            }
        }
        return new Sensor(
                new Thing(ThingKind.DEVICE, d.name()),
                guard.functions(),
                Regions.ints(vertices),
                guard.sensesNeutral(),
                box.name());
    }

    /** {@return the sensors that some current of a load point passes} */
    Set<Sensor> sensorsPassed(int loadPoint) {
        return passed.get(loadPoint);
    }

    private Set<Sensor> findSensors(List<Part> parts) {
        Set<Sensor> found = Set.of();
        for (Part p : parts) {
            if (p.region.sensors.length == 0) {
                continue;
            }
            found = found.isEmpty() ? new LinkedHashSet<>() : found;
            findOn(p.hotBy, found);
            findOn(p.neutralBy, found);
            for (int v : p.passedBySome) {
                found.addAll(byVertex.getOrDefault(v, List.of()));
            }
        }
        return found;
    }

    private void findOn(int[][][] by, Set<Sensor> found) {
        for (int[][] terminals : by) {
            for (int[] chain : terminals == null ? NO_LINES : terminals) {
                for (int v : chain == null ? Regions.NONE : chain) {
                    if (net.sensors.get(v)) {
                        found.addAll(byVertex.getOrDefault(v, List.of()));
                    }
                }
            }
        }
    }

    /**
     * How the currents of a load point pass a sensor.
     *
     * @param hotOnly whether only its hots count
     */
    Passing passing(int loadPoint, Sensor s, boolean hotOnly) {
        boolean somewhere = false;
        boolean always = true;
        boolean ever = true;
        boolean any = false;
        boolean forwards = false;
        boolean backwards = false;
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            boolean everHot = isAny(p.hot);
            boolean relevant = false;
            boolean inSome = false;
            for (int c = 0; c < p.cases(); c++) {
                long neutral = hotOnly ? 0 : p.neutral[c] & ~p.hot[c];
                long ground = hotOnly ? 0 : p.overGround[c] & ~p.hot[c] & ~p.neutral[c];
                if (everHot ? p.hot[c] == 0 : (neutral | ground) == 0) {
                    continue;
                }
                relevant = true;
                boolean all = ground == 0;
                for (int i = 0; i < p.terminals.length; i++) {
                    if ((p.hot[c] >> i & 1) != 0) {
                        boolean passes = passes(p, c, i, p.hotBy[c][i], p.hotRoots[c][i], s);
                        all &= passes;
                        somewhere |= passes;
                    }
                    if ((neutral >> i & 1) != 0) {
                        boolean passes = passes(p, c, i, p.neutralBy[c][i], p.neutralRoots[c][i], s);
                        all &= passes;
                        somewhere |= passes;
                    }
                }
                always &= all;
                inSome |= all;
            }
            somewhere |= s.isAtOneOf(p.passedBySome);
            forwards |= s.isAtOneOf(p.passedForwards);
            backwards |= s.isAtOneOf(p.passedBackwards);
            if (relevant) {
                any |= everHot;
                ever &= inSome;
            }
        }
        boolean oneWay = !(forwards && backwards);
        return new Passing(any, any && always && oneWay, somewhere, any && ever && oneWay);
    }

    private static boolean isAny(long[] masks) {
        for (long m : masks) {
            if (m != 0) {
                return true;
            }
        }
        return false;
    }

    /** Whether every way passes the sensor: at one of its vertices, or now at one and now at another. */
    private boolean passes(Part p, int at, int terminal, int[] chain, int[] roots, Sensor s) {
        if (meets(chain, s)) {
            return true;
        }
        int some = 0;
        for (int v : s.vertices) {
            some += p.passedBySome.contains(v) ? 1 : 0;
        }
        if (some < 2) {
            return false;
        }
        int[] gone = s.vertices;
        reach.state.remove(gone);
        boolean without = ways.inCase(p, at, p.terminals[terminal], roots).length > 0;
        reach.state.restore(gone);
        return !without;
    }

    private static boolean meets(int[] chain, Sensor s) {
        for (int v : chain) {
            if (s.isAt(v)) {
                return true;
            }
        }
        return false;
    }

    /**
     * {@return the protections of a load point}
     *
     * @param overcurrent breakers and mains that each hot terminal passes, with whether always
     */
    List<ProtectedBy> of(int loadPoint, List<LoadPoints.Fed> feeds, Map<Thing, Sureness> overcurrent) {
        List<List<Thing>> lines = lines(feeds);
        List<ProtectedBy> found = new ArrayList<>();
        rank(found, Protection.OVERCURRENT, overcurrent, lines);
        for (Protection function : List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT)) {
            Map<Thing, Sureness> by = new TreeMap<>();
            for (Sensor s : sensorsPassed(loadPoint)) {
                if (s.functions.contains(function)) {
                    Passing p = passing(loadPoint, s, function == Protection.ARC_FAULT && !s.neutral);
                    if (p.everywhere()) {
                        by.put(s.thing, Sureness.MUST);
                    } else if (p.ever()) {
                        by.put(s.thing, Sureness.MAY);
                    }
                }
            }
            rank(found, function, by, lines);
        }
        return found;
    }

    /** What is passed from the load point outward of all that may protect, feed by feed and in each position of the trunk. */
    private List<List<Thing>> lines(List<LoadPoints.Fed> feeds) {
        List<List<Thing>> lines = new ArrayList<>();
        for (LoadPoints.Fed f : feeds) {
            List<Thing> inside = new ArrayList<>(2);
            addProtecting(inside, f.inside());
            for (int t = 0; t < reach.trunk.positions; t++) {
                List<Thing> line = new ArrayList<>(inside);
                if (f.bus() >= 0) {
                    line.addAll(trunkLine(f.bus(), t));
                }
                lines.add(line);
            }
        }
        return lines;
    }

    /** Adds the breakers, mains and devices on a way, in order. */
    private void addProtecting(List<Thing> to, int[] way) {
        for (int v : way) {
            switch (net.kind[v]) {
                case POLE, MAIN_POLE, NEUTRAL_FUSE, NEUTRAL_LINK, LINK -> to.add(whole(v));
                default -> {}
            }
        }
    }

    /** What the way of a bus to its source passes, but for breakers and mains beside which the bus has another way. */
    private List<Thing> trunkLine(int bus, int position) {
        return trunkLines.computeIfAbsent((long) bus << 32 | position, k -> {
            List<Thing> line = new ArrayList<>();
            addProtecting(line, ways.trunkWay(bus, position));
            reach.state.set(reach.trunk.levers, position);
            line.removeIf(t -> isPassedBy(bus, t));
            reach.state.join(reach.trunk.levers);
            return line;
        });
    }

    private boolean isPassedBy(int bus, Thing t) {
        int[] gone = overcurrentVertices.getOrDefault(t, new int[0]);
        if (gone.length == 0) {
            return false;
        }
        reach.state.remove(gone);
        boolean still = reach.trunk.live(reach.state).get(bus);
        reach.state.restore(gone);
        return still;
    }

    private Thing whole(int v) {
        return net.kind[v] == Net.Kind.POLE
                ? new Thing(ThingKind.BREAKER, net.breakerOf.getOrDefault(v, net.name(v)))
                : net.thing(v);
    }

    /** Ranks by how many of them are passed before, the smallest over all lines. */
    private static void rank(
            List<ProtectedBy> found, Protection function, Map<Thing, Sureness> by, List<List<Thing>> lines) {
        if (by.isEmpty()) {
            return;
        }
        Map<Thing, Integer> nearness = new HashMap<>();
        for (List<Thing> line : lines) {
            List<Thing> passed = new ArrayList<>(by.size());
            for (Thing t : line) {
                if (by.containsKey(t) && !passed.contains(t)) {
                    nearness.merge(t, passed.size(), Math::min);
                    passed.add(t);
                }
            }
        }
        by.forEach((t, s) -> found.add(new ProtectedBy(function, t, s, nearness.getOrDefault(t, by.size() - 1))));
        found.sort(Comparator.comparing(ProtectedBy::function)
                .thenComparingInt(ProtectedBy::nearness)
                .thenComparing(ProtectedBy::by));
    }
}
