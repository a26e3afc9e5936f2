package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;

/** Which protective functions every load point has, and by what. */
final class Protections {
    /**
     * A thing that watches currents.
     *
     * @param thing breaker or device
     * @param functions its functions beside overcurrent
     * @param vertices where it watches
     * @param neutral whether it watches the neutral too
     * @param box where it is
     */
    record Sensor(Thing thing, Set<Protection> functions, Set<Integer> vertices, boolean neutral, String box) {}

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

    private final Reach reach;
    private final Ways ways;
    private final Net net;
    final List<Sensor> sensors = new ArrayList<>();
    private final Map<Integer, List<Sensor>> byVertex = new HashMap<>();
    private final Map<Integer, Set<Sensor>> passed = new HashMap<>();
    private final Map<Thing, int[]> overcurrentVertices = new HashMap<>();
    private final Map<List<Integer>, List<Thing>> trunkLines = new HashMap<>();

    Protections(Reach reach, Ways ways) {
        this.reach = reach;
        this.ways = ways;
        this.net = reach.net;
        for (Panel p : net.house.panels().values()) {
            overcurrentVertices.put(new Thing(ThingKind.MAIN, p.name()), Regions.ints(Things.mainPoles(net, p.name())));
            for (Breaker b : p.breakers().values()) {
                overcurrentVertices.put(
                        new Thing(ThingKind.BREAKER, p.name() + "." + b.key()), Regions.ints(Things.poles(net, p, b)));
                if (!b.protects().isEmpty()) {
                    Set<Integer> vertices = new TreeSet<>(Things.poles(net, p, b));
                    Integer link = net.byTerminal.get(p.name() + "/neutral/" + b.key());
                    if (link != null) {
                        vertices.add(link);
                    }
                    Thing thing = new Thing(ThingKind.BREAKER, p.name() + "." + b.key());
                    sensors.add(new Sensor(thing, b.protects(), vertices, b.neutralTerminal(), p.name()));
                }
            }
        }
        for (Box box : net.house.boxes().values()) {
            for (Device d : box.devices().values()) {
                if (d.kind().guard() != null) {
                    sensors.add(sensor(box, d, d.kind().guard()));
                }
            }
        }
        for (Sensor s : sensors) {
            s.vertices()
                    .forEach(v ->
                            byVertex.computeIfAbsent(v, k -> new ArrayList<>()).add(s));
        }
    }

    private Sensor sensor(Box box, Device d, DeviceKind.Guard guard) {
        Set<Integer> vertices = new TreeSet<>();
        for (DeviceKind.Link l : d.kind().links()) {
            if (l.when() == DeviceKind.When.GUARDED) {
                vertices.addAll(Things.between(net, d.name() + "." + l.a(), d.name() + "." + l.b()));
            }
        }
        return new Sensor(
                new Thing(ThingKind.DEVICE, d.name()), guard.functions(), vertices, guard.sensesNeutral(), box.name());
    }

    /** {@return the sensors that some current of a load point passes} */
    Set<Sensor> sensorsPassed(int loadPoint) {
        return passed.computeIfAbsent(loadPoint, this::findSensors);
    }

    private Set<Sensor> findSensors(int loadPoint) {
        Set<Sensor> found = new java.util.LinkedHashSet<>();
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            if (p.region.sensors.length == 0) {
                continue;
            }
            for (int[][][] by : List.of(p.hotBy, p.neutralBy)) {
                for (int[][] terminals : by) {
                    for (int[] chain : terminals == null ? new int[0][] : terminals) {
                        for (int v : chain == null ? new int[0] : chain) {
                            found.addAll(byVertex.getOrDefault(v, List.of()));
                        }
                    }
                }
            }
            p.passedBySome.forEach(v -> found.addAll(byVertex.getOrDefault(v, List.of())));
        }
        return found;
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
            boolean everHot = java.util.Arrays.stream(p.hot).anyMatch(m -> m != 0);
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
            somewhere |= p.passedBySome.stream().anyMatch(s.vertices()::contains);
            forwards |= p.passedForwards.stream().anyMatch(s.vertices()::contains);
            backwards |= p.passedBackwards.stream().anyMatch(s.vertices()::contains);
            if (relevant) {
                any |= everHot;
                ever &= inSome;
            }
        }
        boolean oneWay = !(forwards && backwards);
        return new Passing(any, any && always && oneWay, somewhere, any && ever && oneWay);
    }

    /** Whether every way passes the sensor: at one of its vertices, or now at one and now at another. */
    private boolean passes(Part p, int at, int terminal, int[] chain, int[] roots, Sensor s) {
        if (meets(chain, s)) {
            return true;
        }
        if (s.vertices().stream().filter(p.passedBySome::contains).count() < 2) {
            return false;
        }
        int[] gone = Regions.ints(s.vertices());
        reach.state.remove(gone);
        boolean without = ways.inCase(p, at, p.terminals[terminal], roots).length > 0;
        reach.state.restore(gone);
        return !without;
    }

    private static boolean meets(int[] chain, Sensor s) {
        for (int v : chain) {
            if (s.vertices().contains(v)) {
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
    List<ProtectedBy> of(int loadPoint, List<Feed> feeds, Map<Thing, Sureness> overcurrent) {
        List<List<Thing>> lines = lines(feeds);
        List<ProtectedBy> found = new ArrayList<>();
        rank(found, Protection.OVERCURRENT, overcurrent, lines);
        for (Protection function : List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT)) {
            Map<Thing, Sureness> by = new TreeMap<>();
            for (Sensor s : sensorsPassed(loadPoint)) {
                if (s.functions().contains(function)) {
                    Passing p = passing(loadPoint, s, function == Protection.ARC_FAULT && !s.neutral());
                    if (p.everywhere()) {
                        by.put(s.thing(), Sureness.MUST);
                    } else if (p.ever()) {
                        by.put(s.thing(), Sureness.MAY);
                    }
                }
            }
            rank(found, function, by, lines);
        }
        return found;
    }

    private String breakerOfPole(String pole) {
        Integer v = net.poles.get(pole);
        return v == null ? pole : net.breakerOf.getOrDefault(v, pole);
    }

    /** What is passed from the load point outward, feed by feed and in each position of the trunk. */
    private List<List<Thing>> lines(List<Feed> feeds) {
        List<List<Thing>> lines = new ArrayList<>();
        for (Feed f : feeds) {
            List<Thing> inside = new ArrayList<>();
            int bus = -1;
            for (Way.Hop h : f.way().hops()) {
                if (h.thing().kind() == ThingKind.BUS) {
                    bus = net.buses.getOrDefault(h.thing().name(), -1);
                    break;
                }
                inside.add(whole(h.thing()));
            }
            for (int t = 0; t < reach.trunk.positions; t++) {
                List<Thing> line = new ArrayList<>(inside);
                if (bus >= 0) {
                    line.addAll(trunkLine(bus, t));
                }
                lines.add(line);
            }
        }
        return lines;
    }

    /** What the way of a bus to its source passes, but for breakers and mains beside which the bus has another way. */
    private List<Thing> trunkLine(int bus, int position) {
        return trunkLines.computeIfAbsent(List.of(bus, position), k -> {
            List<Thing> line = new ArrayList<>();
            ways.trunkWay(bus, position).forEach(v -> line.add(whole(net.thing(v))));
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

    private Thing whole(Thing t) {
        return t.kind() == ThingKind.POLE ? new Thing(ThingKind.BREAKER, breakerOfPole(t.name())) : t;
    }

    /** Ranks by how many of them are passed before, the smallest over all lines. */
    private static void rank(
            List<ProtectedBy> found, Protection function, Map<Thing, Sureness> by, List<List<Thing>> lines) {
        Map<Thing, Integer> nearness = new TreeMap<>();
        for (List<Thing> line : lines) {
            Set<Thing> passed = new TreeSet<>();
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
