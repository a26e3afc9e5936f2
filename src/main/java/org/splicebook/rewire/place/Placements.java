package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Result;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Moves;
import org.splicebook.rewire.search.Protecting;
import org.splicebook.rules.Pack;

/**
 * Places protective devices: every candidate is put into the house by itself, and covers what the derivation of that house says; the
 * cheapest choice that covers the most is found exactly ({@link Choice}), and put into the house as a whole. What does not hold there is
 * never chosen again.
 */
public final class Placements {
    /** How many choices are tried as a whole before it is settled for one that is not shown to be the best. */
    private static final int MOST_TRIED = 120;

    private static final int BATCH = 16;

    /** Asked on the way with how many houses of how many were judged; false ends it with what is known so far. */
    @FunctionalInterface
    public interface Progress {
        /** {@return whether to go on} */
        boolean carryOn(int judged, int of);
    }

    /** A candidate, what it covers by itself, how many load points it protects unasked, and why it may not be done. */
    record Judged(Candidate candidate, BitSet covers, int unasked, List<String> reasons) {
        boolean isGood() {
            return reasons.isEmpty() && !covers.isEmpty();
        }
    }

    /** Candidates put in together: the house's verdict, null where they cannot even be put in together. */
    private record Tried(@Nullable House house, Protecting.@Nullable Verdict verdict) {
        boolean holds() {
            return verdict != null && verdict.reasons().isEmpty();
        }
    }

    private final House house;
    private final Protecting protecting;
    private final Costs costs;
    private final List<Demand> demands;
    private final Map<String, Set<Protection>> had;
    private final List<Judged> good = new ArrayList<>();
    private final List<Judged> bad = new ArrayList<>();
    private int judged;
    private boolean isProved = true;

    private Placements(House house, Protecting protecting, Costs costs, List<Demand> demands) {
        this.house = house;
        this.protecting = protecting;
        this.costs = costs;
        this.demands = demands;
        this.had = protecting.protections();
    }

    /**
     * {@return where protective devices are to be, or what is wrong with what is wanted}
     *
     * @param pack what the house is checked by, and what says which outlets ask for protection
     * @param kinds the kinds of devices that may be put in, by name
     */
    public static Result<Placement> of(
            House house, Pack pack, Map<String, DeviceKind> kinds, Costs costs, Wanted wanted, Progress progress) {
        Protecting protecting = Protecting.of(house, pack, kinds);
        Result<Demands> demands = Demands.of(protecting, pack, wanted);
        if (!demands.isOk()) {
            return new Result.Failed<>(demands.problems());
        }
        Placements p = new Placements(house, protecting, costs, demands.get().all());
        p.judge(Candidates.of(house, protecting, kinds, costs, p.demands), progress);
        BitSet chosen = p.choose();
        return Result.ok(new Told(house, protecting.wiring(), protecting.findings(), costs, p.demands, p.good, p.bad)
                .placement(
                        wanted,
                        chosen,
                        p.moves(chosen),
                        p.tried(chosen).verdict(),
                        demands.get().asked(),
                        p.judged,
                        p.isProved));
    }

    private void judge(List<Candidate> all, Progress progress) {
        for (int from = 0; from < all.size(); from += BATCH) {
            if (!progress.carryOn(from, all.size())) {
                isProved = false;
                return;
            }
            all.subList(from, Math.min(all.size(), from + BATCH)).parallelStream()
                    .map(this::judge)
                    .toList()
                    .forEach(j -> {
                        judged++;
                        if (j.isGood()) {
                            good.add(j);
                        } else if (!j.covers().isEmpty()) {
                            bad.add(j);
                        }
                    });
        }
        // Who ends it only now is told all of it.
        boolean unused = progress.carryOn(all.size(), all.size());
    }

    /** As it is, or with the words that its face has to bear where that is all that is wrong with it. */
    private Judged judge(Candidate c) {
        Result<House> made = Moves.apply(house, c.moves());
        if (!made.isOk()) {
            return new Judged(c, new BitSet(), 0, List.of(made.problems().get(0).message()));
        }
        Protecting.Verdict v = protecting.part(made.get(), c.moves());
        Judged plain = new Judged(c, covered(v), unasked(v), v.reasons());
        if (v.unlabelled().isEmpty() || c.moves().stream().anyMatch(m -> m instanceof Move.Label)) {
            return plain;
        }
        Judged labelled = judge(c.labelled(v.unlabelled()));
        return labelled.reasons().isEmpty() ? labelled : plain;
    }

    private int unasked(Protecting.Verdict v) {
        int unasked = 0;
        for (Map.Entry<String, Set<Protection>> e : v.protections().entrySet()) {
            Set<Protection> more = EnumSet.copyOf(Wanted.FUNCTIONS);
            more.retainAll(e.getValue());
            more.removeAll(had.getOrDefault(e.getKey(), Set.of()));
            demands.stream().filter(d -> d.point().equals(e.getKey())).forEach(d -> more.remove(d.function()));
            unasked += more.size();
        }
        return unasked;
    }

    private BitSet covered(Protecting.Verdict v) {
        BitSet all = new BitSet();
        for (int d = 0; d < demands.size(); d++) {
            Set<Protection> its = v.protections().getOrDefault(demands.get(d).point(), Set.of());
            all.set(d, its.contains(demands.get(d).function()));
        }
        return all;
    }

    /** The cheapest choice that covers the most and holds as a whole. */
    private BitSet choose() {
        if (good.isEmpty()) {
            return new BitSet();
        }
        Choice choice = model();
        for (int n = 0; n < MOST_TRIED; n++) {
            BitSet chosen = choice.best();
            isProved &= choice.isProved();
            Tried t = tried(chosen);
            judged++;
            if (chosen.isEmpty()) {
                return chosen;
            }
            Protecting.Verdict v = t.verdict();
            if (v == null || !v.reasons().isEmpty()) {
                choice.neverAll(least(chosen));
            } else if (!leavesOut(choice, chosen, v)) {
                return chosen;
            }
        }
        isProved = false;
        return oneByOne();
    }

    private Choice model() {
        Map<String, Integer> opening = new TreeMap<>();
        good.forEach(j -> j.candidate().sites().forEach(s -> opening.put(s, costs.open(house, s))));
        List<BitSet> covers = new ArrayList<>();
        for (int d = 0; d < demands.size(); d++) {
            BitSet by = new BitSet();
            for (int i = 0; i < good.size(); i++) {
                by.set(i, good.get(i).covers().get(d));
            }
            covers.add(by);
        }
        List<int[]> alone = new ArrayList<>();
        for (int i = 0; i < good.size(); i++) {
            for (int k = i + 1; k < good.size(); k++) {
                if (good.get(i).candidate().excludes(good.get(k).candidate())) {
                    alone.add(new int[] {i, k});
                }
            }
        }
        return new Choice(
                good.stream().map(j -> j.candidate().price()).toList(),
                good.stream()
                        .map(j -> j.candidate().moves().size() + j.unasked())
                        .toList(),
                good.stream().map(j -> j.candidate().sites()).toList(),
                opening,
                covers,
                alone);
    }

    /** What each covers by itself and all together do not. */
    private boolean leavesOut(Choice choice, BitSet chosen, Protecting.Verdict v) {
        BitSet together = covered(v);
        BitSet missing = new BitSet();
        chosen.stream().forEach(i -> missing.or(good.get(i).covers()));
        missing.andNot(together);
        missing.stream().forEach(d -> choice.leavesOut(chosen, d));
        return !missing.isEmpty();
    }

    /** Few of them that do not hold together: taken away from one by one. What is wrong with a few stays wrong with more beside them. */
    private BitSet least(BitSet chosen) {
        BitSet left = (BitSet) chosen.clone();
        chosen.stream().forEach(i -> {
            left.clear(i);
            judged++;
            if (left.isEmpty() || tried(left).holds()) {
                left.set(i);
            }
        });
        return left;
    }

    /** What covers most first, each kept only if all hold together: when it takes too long to be shown what is best. */
    private BitSet oneByOne() {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < good.size(); i++) {
            order.add(i);
        }
        order.sort(Comparator.comparing((Integer i) -> -good.get(i).covers().cardinality())
                .thenComparing(i -> good.get(i).candidate().price()));
        BitSet chosen = new BitSet();
        BitSet covered = new BitSet();
        for (int i : order) {
            BitSet more = (BitSet) good.get(i).covers().clone();
            more.andNot(covered);
            boolean excluded = chosen.stream()
                    .anyMatch(k -> good.get(k).candidate().excludes(good.get(i).candidate()));
            if (more.isEmpty() || excluded) {
                continue;
            }
            chosen.set(i);
            Protecting.Verdict v = tried(chosen).verdict();
            judged++;
            BitSet now = v == null || !v.reasons().isEmpty() ? new BitSet() : covered(v);
            BitSet lost = (BitSet) covered.clone();
            lost.andNot(now);
            if (now.isEmpty() || !lost.isEmpty()) {
                chosen.clear(i);
            } else {
                covered.or(now);
            }
        }
        return chosen;
    }

    private List<Move> moves(BitSet chosen) {
        List<Move> all = new ArrayList<>();
        chosen.stream().forEach(i -> all.addAll(good.get(i).candidate().moves()));
        return all;
    }

    private Tried tried(BitSet chosen) {
        List<Move> moves = moves(chosen);
        Result<House> made = Moves.apply(house, moves);
        return made.isOk() ? new Tried(made.get(), protecting.whole(made.get(), moves)) : new Tried(null, null);
    }
}
