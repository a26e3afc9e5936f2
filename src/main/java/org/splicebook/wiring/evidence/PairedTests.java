package org.splicebook.wiring.evidence;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/**
 * What two agreeing paired tests from different passes exclude (design ruling 11), and no more: a test excludes a pole at a point only
 * if the pole was surely live meanwhile, and only if tests were made in every position of the switches that may lie between. A load
 * point's lamp is lit by the difference of two wires: it tells of one only where the other is seen to be neutral and nothing else.
 */
final class PairedTests {
    private static final int MOST_POSITIONS = 16;
    private static final int PASSES = 2;

    private final House house;
    private final MayNet net;
    private final Points points;
    private final Supplied supplied;
    private final BitSet held;

    PairedTests(House house, MayNet net) {
        this.house = house;
        this.net = net;
        this.points = new Points(house, net);
        this.supplied = new Supplied(house, net);
        BitSet none = new BitSet();
        this.held = Bars.held(net, none, none);
    }

    /** One test at one point: the poles it speaks against, in which lever positions, on which pass. */
    private record Test(String sighting, String pass, BitSet against, Map<String, String> levers) {}

    /** {@return what the sightings exclude; those in a contradiction must be left out before} */
    Exclusions exclusions(List<Sighting> sightings) {
        Map<Integer, List<Test>> tests = new TreeMap<>();
        for (Sighting s : sightings) {
            String pass = s.pass();
            Set<MayNet.Handle> off = points.handlesOf(s.withOff());
            if (pass == null || off == null || !Outs.isPaired(s) || isSeenOtherwise(s, sightings)) {
                continue;
            }
            BitSet against = supplied.surely(Outs.poles(off));
            int at = point(((Sighting.Lit) s.seen()).at(), off);
            if (at >= 0) {
                tests.computeIfAbsent(at, k -> new ArrayList<>()).add(new Test(s.id(), pass, against, s.levers()));
            }
        }
        Map<Integer, BitSet> excluded = new HashMap<>();
        Map<Integer, Set<String>> by = new HashMap<>();
        Set<Integer> live = new HashSet<>();
        tests.forEach((v, made) -> judge(v, made, excluded, by, live));
        return new Exclusions(net, excluded, live, by);
    }

    /** Whether the point was seen lit with the same breakers off, or more, and no switch known to have stood otherwise: then they do not agree. */
    private boolean isSeenOtherwise(Sighting paired, List<Sighting> all) {
        String at = ((Sighting.Lit) paired.seen()).at();
        return all.stream()
                .anyMatch(s -> s.seen() instanceof Sighting.Lit l
                        && l.at().equals(at)
                        && Outs.isLit(s)
                        && Set.copyOf(s.withOff()).containsAll(paired.withOff())
                        && s.levers().entrySet().stream()
                                .allMatch(e ->
                                        e.getValue().equals(paired.levers().getOrDefault(e.getKey(), e.getValue()))));
    }

    /**
     * {@return in which positions of which switches two paired tests are wanted at a point before they exclude anything; empty: they cannot
     * exclude there}
     */
    List<Map<String, String>> positions(String point) {
        int v = points.conductor(point);
        return v < 0 ? List.of() : positions(Direct.from(net, held, v));
    }

    /** The point of which a reading tells; -1 if of none for sure. */
    private int point(String at, Set<MayNet.Handle> off) {
        MayNet.LoadPoint lp = points.loadPoint(at);
        if (lp == null) {
            return points.conductor(at);
        }
        if (lp.pairs().size() != 1) {
            return -1;
        }
        int a = lp.pairs().get(0).get(0);
        int b = lp.pairs().get(0).get(1);
        return isNeutral(b, off) ? a : isNeutral(a, off) ? b : -1;
    }

    /** Whether a terminal is joined to a held bar and to no pole and nothing unknown, whatever these breakers do to their neutrals. */
    private boolean isNeutral(int terminal, Set<MayNet.Handle> off) {
        Direct d = Direct.from(net, held, terminal);
        return d.meetsHeldBar
                && d.poles.isEmpty()
                && !d.meetsUnknown
                && off.stream().noneMatch(this::opensNeutral);
    }

    private boolean opensNeutral(MayNet.Handle h) {
        Panel p = house.panels().get(h.panel());
        return p != null
                && p.breakers().values().stream()
                        .filter(b -> h.isMain() || h.breakers().contains(p.name() + "." + b.key()))
                        .anyMatch(Breaker::neutralTerminal);
    }

    private void judge(
            int v, List<Test> made, Map<Integer, BitSet> excluded, Map<Integer, Set<String>> by, Set<Integer> live) {
        Direct d = Direct.from(net, held, v);
        List<Map<String, String>> positions = positions(d);
        if (positions.isEmpty()) {
            return;
        }
        BitSet no = new BitSet();
        Set<String> told = new TreeSet<>();
        for (MayNet.Handle h : net.handles()) {
            for (int p : h.poles()) {
                if (net.kind(p) == MayNet.Kind.POLE
                        && !d.recordedPoles.get(p)
                        && positions.stream().allMatch(pos -> passes(made, p, pos) >= PASSES)) {
                    no.set(p);
                }
            }
        }
        if (no.isEmpty()) {
            return;
        }
        made.stream().filter(t -> t.against().intersects(no)).forEach(t -> told.add(t.sighting()));
        boolean isLive = d.levers().isEmpty() && everyBreakerIsListed();
        for (int u : joinedHere(v)) {
            excluded.computeIfAbsent(u, k -> new BitSet()).or(no);
            by.computeIfAbsent(u, k -> new TreeSet<>()).addAll(told);
            if (isLive) {
                live.add(u);
            }
        }
    }

    /**
     * A point and what is seen to be joined to it in its box: wire ends and terminals that share its joints. What feeds one of them would
     * have fed the point too. Nothing that can open lies between: no wire out of the box, no contact.
     */
    private Set<Integer> joinedHere(int point) {
        Set<Integer> found = new LinkedHashSet<>(Set.of(point));
        ArrayDeque<Integer> queue = new ArrayDeque<>(found);
        String box = net.box(point);
        while (!queue.isEmpty() && !box.isEmpty()) {
            net.forEachRecorded(queue.remove(), u -> {
                boolean holds = u < net.size()
                        && net.box(u).equals(box)
                        && !held.get(u)
                        && switch (net.kind(u)) {
                            case JOINT, WIRE_END, TERMINAL, METAL -> !net.isOnLever(u);
                            default -> false;
                        };
                if (holds && found.add(u)) {
                    queue.add(u);
                }
            });
        }
        return found;
    }

    private static long passes(List<Test> made, int pole, Map<String, String> positions) {
        return made.stream()
                .filter(t -> t.against().get(pole)
                        && positions.entrySet().stream()
                                .allMatch(e -> e.getValue().equals(t.levers().get(e.getKey()))))
                .map(Test::pass)
                .distinct()
                .count();
    }

    private boolean everyBreakerIsListed() {
        return house.panels().values().stream()
                .allMatch(p -> house.isComplete(p, Complete.BREAKERS)
                        && p.supply().stream()
                                .anyMatch(s -> house.sources().containsKey(s)
                                        || house.cables().containsKey(s)));
    }

    /**
     * The positions of the levers that may matter, in which tests are wanted: of each lever those that conduct no less than any other.
     * Empty where they are too many or cannot be said.
     */
    private List<Map<String, String>> positions(Direct d) {
        List<Map<String, String>> all = new ArrayList<>();
        all.add(Map.of());
        for (String lever : d.levers()) {
            Device device = points.device(lever);
            if (device == null || device.kind().levers().size() != 1) {
                return List.of();
            }
            List<String> wanted = wanted(device.kind());
            List<Map<String, String>> more = new ArrayList<>();
            for (Map<String, String> m : all) {
                for (String w : wanted) {
                    Map<String, String> longer = new TreeMap<>(m);
                    longer.put(lever, w);
                    more.add(longer);
                }
            }
            all = more;
            if (all.size() > MOST_POSITIONS) {
                return List.of();
            }
        }
        return all;
    }

    /** The positions of a lever that are not outdone: in no other one everything conducts that conducts in it, and more. */
    static List<String> wanted(DeviceKind kind) {
        List<String> positions = kind.levers().get(0).positions();
        List<String> wanted = new ArrayList<>();
        for (int i = 0; i < positions.size(); i++) {
            Set<DeviceKind.Link> own = conducting(kind, positions.get(i));
            boolean outdone = false;
            for (int k = 0; k < positions.size(); k++) {
                Set<DeviceKind.Link> other = conducting(kind, positions.get(k));
                outdone |= k != i && other.containsAll(own) && (other.size() > own.size() || k < i);
            }
            if (!outdone) {
                wanted.add(positions.get(i));
            }
        }
        return wanted;
    }

    private static Set<DeviceKind.Link> conducting(DeviceKind kind, String position) {
        Set<DeviceKind.Link> links = new HashSet<>();
        kind.links().stream()
                .filter(l -> l.when() == DeviceKind.When.LEVER && l.positions().contains(position))
                .forEach(links::add);
        return links;
    }
}
