package org.splicebook.wiring.evidence;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntFunction;

/**
 * Whether claims can all hold: each point is looked at by itself first, on which legs it may be; then legs are carried from point to point.
 * With two legs that decides; with three some choices are tried, up to a bound.
 */
final class Holding {
    /** Trials of a leg where carrying legs on does not decide; what needs more is not known. */
    private static final int MOST_TRIALS = 2_000;

    /** Whether claims can all hold. */
    enum Verdict {
        YES,
        NO,
        /** Too many trials would be needed. */
        UNKNOWN
    }

    private final BitSet all;
    private final Map<String, BitSet> polesOn = new TreeMap<>();
    private final BitSet onAnyLeg = new BitSet();

    /**
     * Prepares.
     *
     * @param all every pole, and the bit of the unlisted
     * @param leg the leg of a pole; empty for what is on any leg
     */
    Holding(BitSet all, IntFunction<String> leg) {
        this.all = all;
        all.stream().forEach(p -> {
            String l = leg.apply(p);
            (l.isEmpty() ? onAnyLeg : polesOn.computeIfAbsent(l, k -> new BitSet())).set(p);
        });
    }

    /** {@return whether these claims can all hold} */
    Verdict canHold(List<Claim> claims) {
        Map<String, String> stands = sames(claims);
        Map<String, List<Claim>> at = new LinkedHashMap<>();
        Set<List<String>> yes = new TreeSet<>(java.util.Comparator.comparing(List::toString));
        List<List<String>> no = new ArrayList<>();
        for (Claim c : claims) {
            List<String> points =
                    c.points().stream().map(p -> stands.getOrDefault(p, p)).toList();
            switch (c.kind()) {
                case SAME -> {}
                case YES -> yes.add(points);
                case NO -> no.add(points);
                default ->
                    points.stream()
                            .distinct()
                            .forEach(p -> at.computeIfAbsent(p, k -> new ArrayList<>())
                                    .add(new Claim(c.fact(), c.kind(), points, c.poles())));
            }
        }
        if (no.stream().anyMatch(yes::contains)) {
            return Verdict.NO;
        }
        Map<String, Set<String>> legs = new LinkedHashMap<>();
        for (Map.Entry<String, List<Claim>> e : at.entrySet()) {
            Set<String> may = legsOf(e.getKey(), e.getValue());
            if (may.isEmpty()) {
                return Verdict.NO;
            }
            // What may be on any leg agrees with every other point.
            if (!may.contains("")) {
                legs.put(e.getKey(), may);
            }
        }
        return agree(legs, at, new int[] {MOST_TRIALS});
    }

    /** By point: the one that stands for all that are one conductor with it. */
    private static Map<String, String> sames(List<Claim> claims) {
        Map<String, String> stands = new TreeMap<>();
        for (Claim c : claims) {
            if (c.kind() == Claim.Kind.SAME) {
                String a = stands.getOrDefault(c.points().get(0), c.points().get(0));
                String b = stands.getOrDefault(c.points().get(1), c.points().get(1));
                stands.putIfAbsent(a, a);
                stands.putIfAbsent(b, b);
                stands.replaceAll((p, s) -> s.equals(b) ? a : s);
            }
        }
        return stands;
    }

    /** On which legs one point may be, by what is claimed of it alone; the empty name: fed only by what may be on any leg, or by nothing. */
    private Set<String> legsOf(String point, List<Claim> claims) {
        BitSet allowed = (BitSet) all.clone();
        claims.stream().filter(c -> c.kind() == Claim.Kind.NONE).forEach(c -> allowed.andNot(c.poles()));
        Set<String> may = new TreeSet<>();
        Set<String> choices = new TreeSet<>(polesOn.keySet());
        choices.add("");
        for (String choice : choices) {
            BitSet onLeg = (BitSet) onAnyLeg.clone();
            onLeg.or(polesOn.getOrDefault(choice, onAnyLeg));
            onLeg.and(allowed);
            if (claims.stream().allMatch(c -> suits(c, point, choice, allowed, onLeg))) {
                may.add(choice);
            }
        }
        return may;
    }

    private boolean suits(Claim c, String point, String choice, BitSet allowed, BitSet onLeg) {
        return switch (c.kind()) {
            case SOME -> c.poles().intersects(onLeg);
            case ALL -> {
                BitSet lacking = (BitSet) c.poles().clone();
                lacking.andNot(isOnUnlikeLegs(c.poles()) ? allowed : onLeg);
                yield lacking.isEmpty();
            }
            case UNLIKE_LEGS ->
                !onLeg.isEmpty() && (choice.isEmpty() || !other(c, point).equals(point));
            default -> true;
        };
    }

    /** What the record joins on unlike legs is a short; that is a finding and no contradiction. */
    private boolean isOnUnlikeLegs(BitSet poles) {
        return polesOn.values().stream().filter(poles::intersects).count() > 1;
    }

    private static String other(Claim c, String point) {
        return c.points().get(0).equals(point) ? c.points().get(1) : c.points().get(0);
    }

    /** Whether one leg can be chosen for each point so that all claims on two points hold. */
    private static Verdict agree(Map<String, Set<String>> legs, Map<String, List<Claim>> at, int[] left) {
        Map<String, Set<String>> may = new LinkedHashMap<>();
        legs.forEach((p, l) -> may.put(p, new TreeSet<>(l)));
        ArrayDeque<String> settled = new ArrayDeque<>();
        may.forEach((p, l) -> {
            if (l.size() == 1) {
                settled.add(p);
            }
        });
        if (!carryOn(may, at, settled)) {
            return Verdict.NO;
        }
        for (Map.Entry<String, Set<String>> e : may.entrySet()) {
            if (e.getValue().size() > 1) {
                return oneOf(e.getKey(), e.getValue(), may, at, left);
            }
        }
        return Verdict.YES;
    }

    /** Takes out of its neighbours' choices what a settled point forbids, and so on; false where nothing is left for one. */
    private static boolean carryOn(
            Map<String, Set<String>> may, Map<String, List<Claim>> at, ArrayDeque<String> settled) {
        while (!settled.isEmpty()) {
            String point = settled.remove();
            String leg = may.getOrDefault(point, Set.of()).iterator().next();
            for (Claim c : at.getOrDefault(point, List.of())) {
                boolean same = c.kind() == Claim.Kind.ONE_LEG;
                if (!same && c.kind() != Claim.Kind.UNLIKE_LEGS) {
                    continue;
                }
                String next = other(c, point);
                Set<String> choices = may.get(next);
                if (choices == null || next.equals(point)) {
                    continue;
                }
                boolean fewer = same ? choices.retainAll(Set.of(leg)) : choices.remove(leg);
                if (choices.isEmpty()) {
                    return false;
                }
                if (fewer && choices.size() == 1) {
                    settled.add(next);
                }
            }
        }
        return true;
    }

    private static Verdict oneOf(
            String point, Set<String> legs, Map<String, Set<String>> may, Map<String, List<Claim>> at, int[] left) {
        for (String leg : legs) {
            if (--left[0] < 0) {
                return Verdict.UNKNOWN;
            }
            Map<String, Set<String>> then = new LinkedHashMap<>(may);
            then.put(point, Set.of(leg));
            Verdict v = agree(then, at, left);
            if (v != Verdict.NO) {
                return v;
            }
        }
        return Verdict.NO;
    }
}
