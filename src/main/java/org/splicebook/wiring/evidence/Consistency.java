package org.splicebook.wiring.evidence;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntFunction;

/**
 * Finds the smallest sets of facts that cannot all hold. Each point's poles can be chosen freely otherwise; one point is on one leg.
 *
 * <p>One set is shrunk by halves (QuickXplain, Junker 2004); the others are found among the facts without one of its members, and so on
 * (Reiter's hitting-set tree, 1987), until nothing is left or {@link #MOST_LOOKS} is met, which is then told.
 */
final class Consistency {
    /** Sets of joined facts that are looked at, a last shrinking not counted. */
    static final int MOST_LOOKS = 400;
    /** Sets told of those that differ in nothing but which of some like facts are in them. */
    static final int MOST_ALIKE = 24;

    private final List<Claim> claims;
    private final Holding holding;

    /**
     * Prepares the search.
     *
     * @param claims the claims
     * @param all every pole, and the bit of the unlisted
     * @param leg the leg of a pole; empty for what is on any leg
     */
    Consistency(List<Claim> claims, BitSet all, IntFunction<String> leg) {
        this.claims = claims;
        this.holding = new Holding(all, leg);
    }

    /** {@return every smallest set of facts that cannot all hold, or as many as the bound allows} */
    Conflicts conflicts() {
        List<Conflict> found = new ArrayList<>();
        Set<String> disputed = new TreeSet<>();
        boolean all = true;
        for (List<Claim> part : parts()) {
            Search search = new Search(part);
            search.run();
            found.addAll(search.told());
            disputed.addAll(search.disputed());
            all &= search.finished && search.toldAll;
        }
        return new Conflicts(found, all, disputed);
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

    /** The search among the claims of one part. Facts that claim the same are tried as one, and told each by itself. */
    private final class Search {
        private final List<List<Fact>> alike;
        private final List<List<Claim>> claimed = new ArrayList<>();
        private final Set<BitSet> found = new java.util.LinkedHashSet<>();
        private int looks;
        boolean finished = true;
        boolean toldAll = true;

        Search(List<Claim> part) {
            Map<Fact, List<Claim>> byFact = new TreeMap<>();
            part.forEach(c ->
                    byFact.computeIfAbsent(c.fact(), k -> new ArrayList<>()).add(c));
            Map<List<String>, List<Fact>> bySaying = new LinkedHashMap<>();
            byFact.forEach((f, cs) -> bySaying.computeIfAbsent(
                            cs.stream()
                                    .map(c -> c.kind() + " " + c.points() + " " + c.poles())
                                    .toList(),
                            k -> new ArrayList<>())
                    .add(f));
            alike = List.copyOf(bySaying.values());
            alike.forEach(l -> claimed.add(byFact.getOrDefault(l.get(0), List.of())));
        }

        void run() {
            BitSet everything = new BitSet();
            everything.set(0, alike.size());
            Set<BitSet> visited = new HashSet<>();
            List<BitSet> enough = new ArrayList<>();
            ArrayDeque<BitSet> left = new ArrayDeque<>(List.of(new BitSet()));
            while (!left.isEmpty()) {
                BitSet without = left.remove();
                if (!visited.add(without) || enough.stream().anyMatch(e -> isWithin(e, without))) {
                    continue;
                }
                if (looks >= MOST_LOOKS) {
                    finished = false;
                    return;
                }
                BitSet among = (BitSet) everything.clone();
                among.andNot(without);
                BitSet set = found.stream()
                        .filter(f -> !f.intersects(without))
                        .findFirst()
                        .orElse(null);
                if (set == null && canHold(among)) {
                    enough.add(without);
                    continue;
                }
                if (set == null) {
                    set = shrink(new BitSet(), false, among.stream().boxed().toList());
                    found.add(set);
                } else {
                    looks++;
                }
                set.stream().forEach(f -> {
                    BitSet more = (BitSet) without.clone();
                    more.set(f);
                    left.add(more);
                });
            }
        }

        private static boolean isWithin(BitSet small, BitSet large) {
            BitSet rest = (BitSet) small.clone();
            rest.andNot(large);
            return rest.isEmpty();
        }

        private boolean canHold(BitSet facts) {
            looks++;
            List<Claim> chosen = new ArrayList<>();
            facts.stream().forEach(f -> chosen.addAll(claimed.get(f)));
            Holding.Verdict v = holding.canHold(chosen);
            finished &= v != Holding.Verdict.UNKNOWN;
            return v != Holding.Verdict.NO;
        }

        /** A smallest set among some facts that with others, which are kept, cannot hold. */
        private BitSet shrink(BitSet kept, boolean keptMore, List<Integer> facts) {
            if (keptMore && !canHold(kept)) {
                return new BitSet();
            }
            if (facts.size() == 1) {
                return of(facts);
            }
            List<Integer> first = facts.subList(0, facts.size() / 2);
            List<Integer> second = facts.subList(facts.size() / 2, facts.size());
            BitSet withFirst = of(first);
            withFirst.or(kept);
            BitSet fromSecond = shrink(withFirst, true, second);
            BitSet withSecond = (BitSet) fromSecond.clone();
            withSecond.or(kept);
            BitSet set = shrink(withSecond, !fromSecond.isEmpty(), first);
            set.or(fromSecond);
            return set;
        }

        private static BitSet of(List<Integer> facts) {
            BitSet b = new BitSet();
            facts.forEach(b::set);
            return b;
        }

        /** The sets found, each of like facts in turn. */
        List<Conflict> told() {
            List<Conflict> all = new ArrayList<>();
            for (BitSet set : found) {
                List<List<Fact>> each = List.of(List.of());
                for (int f : set.stream().toArray()) {
                    List<List<Fact>> longer = new ArrayList<>();
                    for (List<Fact> begun : each) {
                        for (Fact like : alike.get(f)) {
                            List<Fact> more = new ArrayList<>(begun);
                            more.add(like);
                            longer.add(more);
                        }
                    }
                    toldAll &= longer.size() <= MOST_ALIKE;
                    each = longer.subList(0, Math.min(MOST_ALIKE, longer.size()));
                }
                each.forEach(l -> all.add(new Conflict(l)));
            }
            return all;
        }

        /** The sightings that may be in a contradiction. */
        Set<String> disputed() {
            Set<String> all = new TreeSet<>();
            for (int f = 0; f < alike.size(); f++) {
                int at = f;
                if (!finished || found.stream().anyMatch(set -> set.get(at))) {
                    alike.get(f).stream()
                            .filter(x -> x instanceof Fact.Sighted)
                            .forEach(x -> all.add(((Fact.Sighted) x).sighting()));
                }
            }
            return all;
        }
    }
}
