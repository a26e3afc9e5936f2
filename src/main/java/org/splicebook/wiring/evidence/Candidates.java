package org.splicebook.wiring.evidence;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/** Each breaker's standing at each point. */
final class Candidates {
    private static final double TWO_HOTS = 200;

    private final House house;
    private final MayNet net;
    private final Exclusions tests;
    private final Exclusions untested;
    private final Points points;
    private final Supplied supplied;
    private final BitSet held;
    /** By node of a point: for each paired test made there, what it speaks against. */
    private final Map<Integer, Map<String, BitSet>> against = new TreeMap<>();

    Candidates(House house, MayNet net, Exclusions tests, List<Sighting> sightings) {
        this.house = house;
        this.net = net;
        this.tests = tests;
        this.untested = tests.isEmpty() ? tests : Exclusions.none(net);
        this.points = new Points(house, net);
        this.supplied = new Supplied(house, net);
        BitSet none = new BitSet();
        this.held = Bars.held(net, none, none);
        for (Sighting s : sightings) {
            Set<MayNet.Handle> off = points.handlesOf(s.withOff());
            if (off != null && Outs.isPaired(s)) {
                BitSet poles = supplied.surely(Outs.poles(off));
                points.nodes(((Sighting.Lit) s.seen()).at())
                        .forEach(v ->
                                against.computeIfAbsent(v, k -> new TreeMap<>()).put(s.id(), poles));
            }
        }
    }

    List<Evidence.PointEvidence> all() {
        List<Evidence.PointEvidence> all = new ArrayList<>();
        for (String point : points.all()) {
            all.add(point(point, points.nodes(point)));
        }
        return all;
    }

    private Evidence.PointEvidence point(String point, List<Integer> nodes) {
        Direct d = Direct.ofAny(net, held, new BitSet(), nodes);
        List<Evidence.Candidate> candidates = new ArrayList<>();
        Set<String> panels = new TreeSet<>();
        Set<MayNet.Handle> feeding = new LinkedHashSet<>();
        for (MayNet.Handle h : net.handles()) {
            if (h.poles().stream().anyMatch(p -> feeds(tests, p, nodes) || d.recordedPoles.get(p))) {
                feeding.add(h);
                panels.add(h.panel());
            }
        }
        Set<MayNet.Handle> above = above(panels);
        for (MayNet.Handle h : net.handles()) {
            if (!h.isMain() && (feeding.contains(h) || !above.contains(h))) {
                for (String b : h.breakers()) {
                    candidates.add(candidate(point, nodes, d, h, b));
                }
            }
        }
        candidates.sort(java.util.Comparator.comparing(Evidence.Candidate::standing)
                .thenComparing(c -> c.doubts().size()));
        return new Evidence.PointEvidence(point, candidates, d.meetsWorld || d.meetsSource);
    }

    private static boolean feeds(Exclusions by, int pole, List<Integer> nodes) {
        return nodes.stream().anyMatch(by.reach(pole)::get);
    }

    /** What feeds the panels in which a breaker is that feeds the point. */
    private Set<MayNet.Handle> above(Set<String> panels) {
        Set<MayNet.Handle> found = new LinkedHashSet<>();
        boolean more = true;
        while (more) {
            more = false;
            for (MayNet.Handle h : net.handles()) {
                boolean feeds = h.poles().stream()
                        .filter(p -> net.kind(p) == MayNet.Kind.POLE)
                        .anyMatch(p -> untested.reach(p).stream()
                                .anyMatch(v -> (net.kind(v) == MayNet.Kind.LUG || net.kind(v) == MayNet.Kind.BUS)
                                        && panels.contains(net.box(v))));
                if (feeds && found.add(h)) {
                    panels.add(h.panel());
                    more = true;
                }
            }
        }
        return found;
    }

    private Evidence.Candidate candidate(String point, List<Integer> nodes, Direct d, MayNet.Handle h, String breaker) {
        List<Integer> poles =
                h.poles().stream().filter(p -> isOf(net.name(p), breaker)).toList();
        if (poles.stream().anyMatch(d.recordedPoles::get)) {
            return new Evidence.Candidate(breaker, Evidence.Standing.SHOWN, Set.of(), List.of());
        }
        if (poles.stream().noneMatch(p -> feeds(untested, p, nodes))) {
            return new Evidence.Candidate(breaker, Evidence.Standing.EXCLUDED, Set.of(), List.of());
        }
        if (poles.stream().noneMatch(p -> feeds(tests, p, nodes))) {
            Set<String> by = new TreeSet<>();
            poles.forEach(p -> by.addAll(tests.sightingsAgainst(p)));
            return new Evidence.Candidate(breaker, Evidence.Standing.EXCLUDED, Set.of(), List.copyOf(by));
        }
        Set<String> by = new TreeSet<>();
        Set<Evidence.Doubt> doubts = EnumSet.noneOf(Evidence.Doubt.class);
        for (int v : nodes) {
            against.getOrDefault(v, Map.of()).forEach((id, no) -> {
                if (poles.stream().allMatch(no::get)) {
                    doubts.add(Evidence.Doubt.TESTED_OTHERWISE);
                    by.add(id);
                }
            });
        }
        if (isWrongPoles(point, poles.size())) {
            doubts.add(Evidence.Doubt.POLES);
        }
        if (isTooBig(point, breaker)) {
            doubts.add(Evidence.Doubt.RATING);
        }
        return new Evidence.Candidate(
                breaker,
                doubts.isEmpty() ? Evidence.Standing.POSSIBLE : Evidence.Standing.UNLIKELY,
                doubts,
                List.copyOf(by));
    }

    /** Whether {@code main.2} is a pole of {@code main.2+4}. */
    private static boolean isOf(String pole, String breaker) {
        int dot = breaker.indexOf('.');
        return pole.startsWith(breaker.substring(0, dot + 1))
                && List.of(breaker.substring(dot + 1).split("\\+")).contains(pole.substring(dot + 1));
    }

    private boolean isWrongPoles(String point, int poles) {
        MayNet.LoadPoint lp = points.loadPoint(point);
        Device d = lp == null ? null : points.device(lp.device());
        return d != null
                && poles == 1
                && d.kind().loadPoints().stream()
                        .flatMap(l -> l.pairs().stream())
                        .anyMatch(p -> p.volts() >= TWO_HOTS);
    }

    /** Whether a breaker's rating is above the usual one for a wire's size. */
    private boolean isTooBig(String point, String breaker) {
        int dot = point.indexOf('.');
        var cable = dot < 0 ? null : house.cables().get(point.substring(0, dot));
        Breaker b = find(breaker);
        if (cable == null || b == null || b.rating() == null) {
            return false;
        }
        String wire = point.substring(dot + 1).replaceFirst("@[12]$", "");
        double amperes = b.rating().base();
        return cable.wires().stream()
                .filter(w -> w.name().equals(wire) && w.size() != null)
                .anyMatch(w -> amperes > usual(String.valueOf(w.size())));
    }

    private @org.jspecify.annotations.Nullable Breaker find(String breaker) {
        int dot = breaker.indexOf('.');
        var panel = house.panels().get(breaker.substring(0, dot));
        return panel == null ? null : panel.breakers().get(breaker.substring(dot + 1));
    }

    /** The usual largest breaker by wire size (240.4(D)). */
    private static double usual(String size) {
        return switch (size) {
            case "14" -> 15;
            case "12" -> 20;
            case "10" -> 30;
            default -> Double.MAX_VALUE;
        };
    }
}
