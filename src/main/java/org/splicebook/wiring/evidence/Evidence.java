package org.splicebook.wiring.evidence;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/**
 * For each load point and wire end the breakers that may feed it, from the wiring and the sightings; and the facts that cannot all hold.
 *
 * @param points each load point and each wire end in a box or panel, by name
 * @param conflicts smallest sets of facts that cannot all hold; sightings in one exclude nothing
 * @param everyConflict whether there are no others; else they were not searched further, and sightings that may be in one exclude nothing
 */
public record Evidence(List<PointEvidence> points, List<Conflict> conflicts, boolean everyConflict) {
    public Evidence {
        points = List.copyOf(points);
        conflicts = List.copyOf(conflicts);
    }

    /** How a breaker stands to a point. */
    public enum Standing {
        /** The record joins them, in some position of the switches. */
        SHOWN,
        /** It may feed it: nothing speaks against it. */
        POSSIBLE,
        /** It may feed it all the same, though something speaks against it; this ranks and never excludes. */
        UNLIKELY,
        /** Complete seen wiring, or two agreeing paired tests from different passes, exclude it. */
        EXCLUDED
    }

    /**
     * What is known of one point.
     *
     * @param point a load point's id or a wire end
     * @param candidates every breaker, those above a possible one left out: they feed it if that one does
     * @param unlisted whether something that nobody listed may feed it
     */
    public record PointEvidence(String point, List<Candidate> candidates, boolean unlisted) {
        public PointEvidence {
            candidates = List.copyOf(candidates);
        }
    }

    /**
     * A breaker and a point.
     *
     * @param breaker the breaker
     * @param standing how it stands
     * @param doubts what speaks against it, where it is unlikely
     * @param sightings the sightings that say so, or that exclude it; none where complete seen wiring does
     */
    public record Candidate(String breaker, Standing standing, Set<Doubt> doubts, List<String> sightings) {
        public Candidate {
            doubts = java.util.Collections.unmodifiableSet(new TreeSet<>(doubts));
            sightings = List.copyOf(sightings);
        }
    }

    /** What speaks against a breaker without excluding it. */
    public enum Doubt {
        /** A paired test found the point out with other breakers off. */
        TESTED_OTHERWISE,
        /** Volts to a point of which the record shows the breaker tell of another leg. */
        OTHER_LEG,
        /** Its rating is above what a wire there may carry. */
        RATING,
        /** The load needs two poles and it has one, or the reverse. */
        POLES
    }

    /**
     * {@return the evidence of a house; a pure function}
     *
     * @param house the record
     * @param standing the sightings that still stand, see {@link Expiry}
     */
    public static Evidence of(House house, List<Sighting> standing) {
        House seen = SeenOnly.of(house);
        MayNet net = MayNet.of(seen);
        Conflicts conflicts = new Claims(seen, net).conflicts(standing);
        List<Sighting> undisputed = undisputed(seen, net, standing, conflicts);
        Exclusions tests = new PairedTests(seen, net).exclusions(undisputed);
        return new Evidence(new Candidates(seen, net, tests, undisputed).all(), conflicts.found(), conflicts.all());
    }

    /**
     * {@return what sightings exclude; those in a contradiction, or that may be in one, exclude nothing}
     *
     * @param seen the house with only what was seen taken as known
     * @param net its graph
     * @param standing the sightings that still stand
     */
    public static Exclusions exclusions(House seen, MayNet net, List<Sighting> standing) {
        if (standing.stream()
                        .filter(Outs::isPaired)
                        .map(Sighting::pass)
                        .distinct()
                        .count()
                < 2) {
            return Exclusions.none(net);
        }
        Conflicts conflicts = new Claims(seen, net).conflicts(standing);
        return new PairedTests(seen, net).exclusions(undisputed(seen, net, standing, conflicts));
    }

    /** Leaves out what is disputed, and what then still is, until the rest can all hold; nothing where the record itself cannot. */
    private static List<Sighting> undisputed(House seen, MayNet net, List<Sighting> standing, Conflicts first) {
        List<Sighting> left = standing;
        Conflicts conflicts = first;
        while (!conflicts.isEmpty()) {
            Set<String> disputed = conflicts.disputed();
            List<Sighting> fewer =
                    left.stream().filter(s -> !disputed.contains(s.id())).toList();
            if (fewer.size() == left.size()) {
                return List.of();
            }
            left = fewer;
            conflicts = new Claims(seen, net).conflicts(left);
        }
        return left;
    }

    /** {@return whether a sighting is a paired test: lit before, out with breakers off, lit after, by an instrument that tells} */
    public static boolean isPairedTest(Sighting s) {
        return Outs.isPaired(s);
    }

    /**
     * {@return in which positions of which switches paired tests, two from different passes in each, would exclude breakers at wire ends or
     * terminals, by point: one map of lever positions for each; empty where tests cannot exclude}
     *
     * @param house the record
     * @param points wires, wire ends or terminals
     */
    public static Map<String, List<Map<String, String>>> positionsToTest(House house, List<String> points) {
        House seen = SeenOnly.of(house);
        PairedTests tests = new PairedTests(seen, MayNet.of(seen));
        Map<String, List<Map<String, String>>> all = new TreeMap<>();
        points.forEach(p -> all.put(p, tests.positions(p)));
        return all;
    }
}
