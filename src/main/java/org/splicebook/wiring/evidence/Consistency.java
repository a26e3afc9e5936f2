package org.splicebook.wiring.evidence;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntFunction;

/** Finds the smallest sets of facts that cannot all hold. Each point's poles can be chosen freely otherwise; one point is on one leg. */
final class Consistency {
    /** Beyond so many facts about joined points smallest sets are looked for one after the other, at most {@link #MOST} of them. */
    private static final int MANY = 14;

    private static final int MOST = 24;

    private final List<Claim> claims;
    private final IntFunction<String> leg;
    private final BitSet all;

    /**
     * Prepares the search.
     *
     * @param claims the claims
     * @param all every pole, and the bit of the unlisted
     * @param leg the leg of a pole; empty for what is on any leg
     */
    Consistency(List<Claim> claims, BitSet all, IntFunction<String> leg) {
        this.claims = claims;
        this.all = all;
        this.leg = leg;
    }

    /** {@return every smallest set of facts that cannot all hold; where facts about joined points are many, some of them} */
    List<Conflict> conflicts() {
        List<Conflict> found = new ArrayList<>();
        for (List<Claim> part : parts()) {
            Set<Fact> facts = new TreeSet<>();
            part.forEach(c -> facts.add(c.fact()));
            found.addAll(smallest(part, List.copyOf(facts)));
        }
        return found;
    }

    /** Claims about points that facts join, together. */
    private List<List<Claim>> parts() {
        Map<String, Integer> partOf = new TreeMap<>();
        List<List<Claim>> parts = new ArrayList<>();
        Map<Fact, List<Claim>> byFact = new LinkedHashMap<>();
        claims.forEach(
                c -> byFact.computeIfAbsent(c.fact(), k -> new ArrayList<>()).add(c));
        for (List<Claim> together : byFact.values()) {
            Set<Integer> joined = new TreeSet<>();
            together.forEach(c -> c.points().forEach(p -> {
                if (partOf.containsKey(p)) {
                    joined.add(partOf.get(p));
                }
            }));
            int to = parts.size();
            parts.add(new ArrayList<>(together));
            together.forEach(c -> c.points().forEach(p -> partOf.put(p, to)));
            for (int j : joined) {
                parts.get(to).addAll(parts.get(j));
                parts.set(j, new ArrayList<>());
                partOf.replaceAll((p, n) -> n == j ? to : n);
            }
        }
        parts.removeIf(List::isEmpty);
        return parts;
    }

    /** Facts that claim the same are tried as one, and told each by itself. */
    private List<Conflict> smallest(List<Claim> part, List<Fact> all) {
        if (hold(part, new LinkedHashSet<>(all))) {
            return List.of();
        }
        Map<Fact, List<String>> said = new TreeMap<>();
        part.forEach(c -> said.computeIfAbsent(c.fact(), k -> new ArrayList<>())
                .add(c.kind() + " " + c.points() + " " + c.poles()));
        Map<List<String>, List<Fact>> alike = new LinkedHashMap<>();
        said.forEach((f, s) -> alike.computeIfAbsent(s, k -> new ArrayList<>()).add(f));
        List<Fact> facts = alike.values().stream().map(l -> l.get(0)).toList();
        List<Set<Fact>> found = facts.size() <= MANY ? everySmallest(part, facts) : oneByOne(part, facts);
        List<Conflict> told = new ArrayList<>();
        for (Set<Fact> set : found) {
            List<List<Fact>> each = List.of(List.of());
            for (Fact f : set) {
                List<List<Fact>> longer = new ArrayList<>();
                for (List<Fact> begun : each) {
                    for (Fact like : alike.getOrDefault(said.get(f), List.of(f))) {
                        List<Fact> more = new ArrayList<>(begun);
                        more.add(like);
                        longer.add(more);
                    }
                }
                each = longer;
            }
            each.forEach(l -> told.add(new Conflict(l)));
        }
        return told;
    }

    private List<Set<Fact>> everySmallest(List<Claim> part, List<Fact> facts) {
        List<Set<Fact>> found = new ArrayList<>();
        for (int size = 1; size <= facts.size(); size++) {
            choose(facts, 0, size, new ArrayList<>(), part, found);
        }
        return found;
    }

    /** One smallest set, then one among the facts without each of its facts in turn, and so on, up to a bound. */
    private List<Set<Fact>> oneByOne(List<Claim> part, List<Fact> facts) {
        Set<Set<Fact>> found = new LinkedHashSet<>();
        ArrayDeque<Set<Fact>> left = new ArrayDeque<>();
        left.add(new LinkedHashSet<>(facts));
        while (!left.isEmpty() && found.size() < MOST) {
            Set<Fact> among = left.remove();
            Set<Fact> known =
                    found.stream().filter(among::containsAll).findFirst().orElse(null);
            if (known == null && hold(part, among)) {
                continue;
            }
            Set<Fact> set = known == null ? shrink(part, among) : known;
            found.add(set);
            for (Fact f : set) {
                Set<Fact> without = new LinkedHashSet<>(among);
                without.remove(f);
                left.add(without);
            }
        }
        return List.copyOf(found);
    }

    private void choose(
            List<Fact> facts, int from, int left, List<Fact> chosen, List<Claim> part, List<Set<Fact>> found) {
        if (left == 0) {
            Set<Fact> set = new LinkedHashSet<>(chosen);
            if (found.stream().noneMatch(set::containsAll) && !hold(part, set)) {
                found.add(set);
            }
            return;
        }
        for (int i = from; i <= facts.size() - left; i++) {
            chosen.add(facts.get(i));
            if (found.stream().noneMatch(chosen::containsAll)) {
                choose(facts, i + 1, left - 1, chosen, part, found);
            }
            chosen.remove(chosen.size() - 1);
        }
    }

    private Set<Fact> shrink(List<Claim> part, Set<Fact> facts) {
        Set<Fact> kept = new LinkedHashSet<>(facts);
        for (Fact f : facts) {
            kept.remove(f);
            if (hold(part, kept)) {
                kept.add(f);
            }
        }
        return kept;
    }

    /** Whether these facts can all hold. */
    private boolean hold(List<Claim> part, Set<Fact> facts) {
        List<Claim> chosen = part.stream().filter(c -> facts.contains(c.fact())).toList();
        Map<String, String> same = sames(chosen);
        List<Claim> held = chosen.stream()
                .filter(c -> c.kind() != Claim.Kind.SAME)
                .map(c -> new Claim(
                        c.fact(),
                        c.kind(),
                        c.points().stream().map(p -> same.getOrDefault(p, p)).toList(),
                        c.poles()))
                .toList();
        Map<String, BitSet> may = new TreeMap<>();
        Set<String> yes = new TreeSet<>();
        Set<String> no = new TreeSet<>();
        for (Claim c : held) {
            switch (c.kind()) {
                case YES -> yes.add(c.points().toString());
                case NO -> no.add(c.points().toString());
                default -> c.points().forEach(p -> may.computeIfAbsent(p, k -> (BitSet) all.clone()));
            }
            if (c.kind() == Claim.Kind.NONE) {
                may.computeIfAbsent(c.points().get(0), k -> (BitSet) all.clone())
                        .andNot(c.poles());
            }
        }
        yes.retainAll(no);
        return yes.isEmpty() && assign(List.copyOf(may.keySet()), 0, new HashMap<>(), may, held);
    }

    /** By point: the one that stands for all that are one conductor with it. */
    private static Map<String, String> sames(List<Claim> chosen) {
        Map<String, String> stands = new TreeMap<>();
        for (Claim c : chosen) {
            if (c.kind() == Claim.Kind.SAME) {
                String a = stands.getOrDefault(c.points().get(0), c.points().get(0));
                String b = stands.getOrDefault(c.points().get(1), c.points().get(1));
                stands.putIfAbsent(a, a);
                stands.putIfAbsent(b, b);
                stands.replaceAll((p, s) -> s.equals(b) ? a : s);
                stands.put(c.points().get(1), a);
                stands.put(c.points().get(0), a);
            }
        }
        return stands;
    }

    /** Tries a leg for one point after the other. */
    private boolean assign(
            List<String> points, int at, Map<String, String> legs, Map<String, BitSet> may, List<Claim> held) {
        if (at == points.size()) {
            return true;
        }
        String point = points.get(at);
        BitSet allowed = may.getOrDefault(point, all);
        Set<String> choices = new TreeSet<>();
        allowed.stream().forEach(p -> choices.add(leg.apply(p)));
        choices.add("");
        for (String choice : choices) {
            legs.put(point, choice);
            if (suits(point, allowed, choice, legs, held) && assign(points, at + 1, legs, may, held)) {
                return true;
            }
        }
        legs.remove(point);
        return false;
    }

    /** Whether a point can be fed from one leg as all claims on it demand, as far as the other points have theirs. */
    private boolean suits(String point, BitSet allowed, String choice, Map<String, String> legs, List<Claim> held) {
        BitSet onLeg = new BitSet();
        allowed.stream()
                .filter(p -> leg.apply(p).isEmpty() || leg.apply(p).equals(choice))
                .forEach(onLeg::set);
        for (Claim c : held) {
            if (!c.points().contains(point)) {
                continue;
            }
            boolean fits = switch (c.kind()) {
                case SOME -> c.poles().intersects(onLeg);
                case ALL -> {
                    BitSet lacking = (BitSet) c.poles().clone();
                    lacking.andNot(isOnUnlikeLegs(c.poles()) ? allowed : onLeg);
                    yield lacking.isEmpty();
                }
                case UNLIKE_LEGS -> legsSuit(c, point, legs, onLeg, false);
                case ONE_LEG -> legsSuit(c, point, legs, onLeg, true);
                default -> true;
            };
            if (!fits) {
                return false;
            }
        }
        return true;
    }

    /** What the record joins on unlike legs is a short; that is a finding and no contradiction. */
    private boolean isOnUnlikeLegs(BitSet poles) {
        return poles.stream().mapToObj(leg).filter(l -> !l.isEmpty()).distinct().count() > 1;
    }

    private static boolean legsSuit(Claim c, String point, Map<String, String> legs, BitSet onLeg, boolean same) {
        String other =
                c.points().get(0).equals(point) ? c.points().get(1) : c.points().get(0);
        String a = legs.getOrDefault(point, "");
        String b = legs.get(other);
        if (onLeg.isEmpty()) {
            return same;
        }
        return b == null || a.isEmpty() || b.isEmpty() || a.equals(b) == same;
    }
}
