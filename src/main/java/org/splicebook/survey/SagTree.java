package org.splicebook.survey;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * The order of outlets along a circuit, from how far the voltage sags at one of them while a known load runs at another.
 *
 * <p>The sag over the load's amperes is the resistance of what the two ways to the panel have in common, and of the source. Ways that
 * branch like a tree share as much as goes to where they part, so the outlet whose own loop is just what it shares with another has that
 * other behind it (a tree metric; lowest common ancestor).
 *
 * @param outlets each outlet that was measured, nearest the panel first
 * @param circuits outlets that share more than the source, together
 * @param parted outlets whose feeds share more or less than their returns do, so that one of them returns another way: a borrowed neutral
 * @param unlikeATree three outlets of which the two smaller shared resistances differ: a ring, a second neutral, or a wrong reading
 */
public record SagTree(
        List<Outlet> outlets, List<List<String>> circuits, List<Parted> parted, List<List<String>> unlikeATree) {
    /** A step between neighbours that a short cable does not account for: a bad connection, in ohms. */
    public static final double BAD_STEP_OHMS = 0.05;

    /** How far two resistances may be apart that count as one: so many ohms, and so large a share. */
    private static final double SAME_OHMS = 0.006;

    private static final double SAME_SHARE = 0.03;
    /** Feed and return of one cable are of one size; joints make them differ by less than this share. */
    private static final double PARTED_SHARE = 0.3;

    /**
     * One reading.
     *
     * @param load the outlet at which the load runs
     * @param amperes what it draws
     * @param at the outlet that is read
     * @param sag by how much the voltage from hot to neutral falls, in volts
     * @param rise by how much the voltage from neutral to ground rises, in volts; null where it was not read
     */
    public record Reading(
            String load,
            double amperes,
            String at,
            double sag,
            @Nullable Double rise) {}

    /**
     * An outlet in its place.
     *
     * @param name the outlet
     * @param behind the outlet that it hangs behind; null: behind none of those measured
     * @param ohms its whole loop, feed and return, the source left out
     * @param step what it has more than the outlet it is behind, or than where its way leaves the others'
     */
    public record Outlet(String name, @Nullable String behind, double ohms, double step) {}

    /** Two outlets of which feeds and returns share unlike resistances, in ohms. */
    public record Parted(String one, String other, double feed, double back) {}

    public SagTree {
        outlets = List.copyOf(outlets);
        circuits = circuits.stream().map(List::copyOf).toList();
        parted = List.copyOf(parted);
        unlikeATree = unlikeATree.stream().map(List::copyOf).toList();
    }

    /**
     * {@return the order that readings show}
     *
     * @param sourceOhms what even an outlet elsewhere on the same leg sags by, over the load's amperes; 0 where the readings are already
     *     corrected for it
     */
    public static SagTree of(List<Reading> readings, double sourceOhms) {
        Shared loop = new Shared();
        Shared back = new Shared();
        for (Reading r : readings) {
            loop.add(r.load, r.at, Math.max(0, r.sag / r.amperes - sourceOhms));
            if (r.rise != null) {
                back.add(r.load, r.at, r.rise / r.amperes);
            }
        }
        List<String> names = new ArrayList<>(loop.own());
        names.sort((a, b) -> Double.compare(loop.of(a, a), loop.of(b, b)));
        List<Outlet> outlets = new ArrayList<>();
        for (String n : names) {
            outlets.add(outlet(n, names, loop));
        }
        return new SagTree(outlets, circuits(names, loop), parted(names, loop, back), unlikeATree(names, loop));
    }

    /** Resistances shared by two outlets; what was read both ways is averaged. */
    private static final class Shared {
        private final Map<String, Map<String, double[]>> sums = new TreeMap<>();

        private void add(String a, String b, double ohms) {
            put(a, b, ohms);
            if (!a.equals(b)) {
                put(b, a, ohms);
            }
        }

        private void put(String a, String b, double ohms) {
            double[] sum = sums.computeIfAbsent(a, k -> new TreeMap<>()).computeIfAbsent(b, k -> new double[2]);
            sum[0] += ohms;
            sum[1]++;
        }

        /** {@return the resistance; not a number where it was not read} */
        private double of(String a, String b) {
            double[] sum = sums.getOrDefault(a, Map.of()).get(b);
            return sum == null ? Double.NaN : sum[0] / sum[1];
        }

        private Set<String> own() {
            TreeSet<String> own = new TreeSet<>(sums.keySet());
            own.removeIf(n -> Double.isNaN(of(n, n)));
            return own;
        }
    }

    private static boolean same(double a, double b) {
        return Math.abs(a - b) <= SAME_OHMS + SAME_SHARE * Math.max(Math.abs(a), Math.abs(b));
    }

    private static boolean isShared(double ohms) {
        return ohms > SAME_OHMS;
    }

    private static Outlet outlet(String name, List<String> nearestFirst, Shared loop) {
        double own = loop.of(name, name);
        String behind = null;
        double until = 0;
        for (String other : nearestFirst) {
            if (other.equals(name)) {
                break;
            }
            double shared = loop.of(name, other);
            if (Double.isNaN(shared) || !isShared(shared)) {
                continue;
            }
            until = Math.max(until, shared);
            if (same(shared, loop.of(other, other)) && !same(own, loop.of(other, other))) {
                behind = other; // the last such one lies nearest, for they come nearest the panel first
            }
        }
        return new Outlet(name, behind, own, Math.max(0, own - until));
    }

    private static List<List<String>> circuits(List<String> names, Shared loop) {
        Map<String, List<String>> by = new LinkedHashMap<>();
        List<String> left = new ArrayList<>(names);
        while (!left.isEmpty()) {
            List<String> circuit = new ArrayList<>(List.of(left.remove(0)));
            for (int i = 0; i < circuit.size(); i++) {
                String here = circuit.get(i);
                List<String> more =
                        left.stream().filter(n -> isShared(loop.of(here, n))).toList();
                circuit.addAll(more);
                left.removeAll(more);
            }
            by.put(circuit.get(0), circuit);
        }
        return List.copyOf(by.values());
    }

    private static List<Parted> parted(List<String> names, Shared loop, Shared back) {
        List<Parted> all = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            for (int j = i + 1; j < names.size(); j++) {
                double returns = back.of(names.get(i), names.get(j));
                double feeds = loop.of(names.get(i), names.get(j)) - returns;
                boolean differs = Math.abs(feeds - returns)
                        > SAME_OHMS + PARTED_SHARE * Math.max(Math.abs(feeds), Math.abs(returns));
                if (differs && (isShared(feeds) || isShared(returns))) {
                    all.add(new Parted(names.get(i), names.get(j), Math.max(0, feeds), returns));
                }
            }
        }
        return all;
    }

    private static List<List<String>> unlikeATree(List<String> names, Shared loop) {
        List<List<String>> all = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            for (int j = i + 1; j < names.size(); j++) {
                for (int k = j + 1; k < names.size(); k++) {
                    double a = loop.of(names.get(i), names.get(j));
                    double b = loop.of(names.get(i), names.get(k));
                    double c = loop.of(names.get(j), names.get(k));
                    double most = Math.max(a, Math.max(b, c));
                    double least = Math.min(a, Math.min(b, c));
                    if (!Double.isNaN(most) && !same(least, a + b + c - most - least)) {
                        all.add(List.of(names.get(i), names.get(j), names.get(k)));
                    }
                }
            }
        }
        return all;
    }
}
