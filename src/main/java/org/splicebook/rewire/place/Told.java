package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.rewire.place.Placements.Judged;
import org.splicebook.rewire.search.Protecting;
import org.splicebook.rules.Finding;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Why each device is where it is: what it covers, what might be in its place, and why what is not covered is not. */
record Told(
        House house,
        Wiring wiring,
        List<Finding> found,
        Costs costs,
        List<Demand> demands,
        List<Judged> good,
        List<Judged> bad) {
    /** How many alternatives, and how many that may not be done, are told of each. */
    private static final int TOLD = 2;

    Placement placement(
            Wanted wanted,
            BitSet chosen,
            List<Move> moves,
            Protecting.@Nullable Verdict verdict,
            List<Finding> asked,
            int judged,
            boolean isProved) {
        BitSet covered = new BitSet();
        for (int d = 0; d < demands.size(); d++) {
            Demand demand = demands.get(d);
            covered.set(
                    d,
                    verdict != null
                            && verdict.protections()
                                    .getOrDefault(demand.point(), Set.of())
                                    .contains(demand.function()));
        }
        List<Candidate> all =
                chosen.stream().mapToObj(i -> good.get(i).candidate()).toList();
        Set<String> sites = new LinkedHashSet<>();
        all.forEach(c -> c.sites().stream().sorted().forEach(sites::add));
        int cost = all.stream().mapToInt(Candidate::price).sum()
                + sites.stream().mapToInt(s -> costs.open(house, s)).sum();
        List<Placement.Placed> placed = new ArrayList<>();
        chosen.stream().forEach(i -> placed.add(placed(i, chosen, covered)));
        List<Placement.Uncovered> uncovered = new ArrayList<>();
        for (int d = 0; d < demands.size(); d++) {
            if (!covered.get(d)) {
                uncovered.add(new Placement.Uncovered(demands.get(d), why(d)));
            }
        }
        return new Placement(
                wanted,
                demands,
                placed,
                uncovered,
                asked,
                labels(covered),
                List.copyOf(sites),
                moves,
                cost,
                verdict == null ? List.of() : verdict.beside(),
                judged,
                isProved);
    }

    private Placement.Placed placed(int i, BitSet chosen, BitSet covered) {
        BitSet its = (BitSet) good.get(i).covers().clone();
        its.and(covered);
        BitSet only = (BitSet) its.clone();
        Set<String> open = new LinkedHashSet<>();
        chosen.stream().filter(k -> k != i).forEach(k -> {
            only.andNot(good.get(k).covers());
            open.addAll(good.get(k).candidate().sites());
        });
        Candidate c = good.get(i).candidate();
        int cost = beside(c, open);
        List<Placement.Instead> instead = new ArrayList<>();
        Set<String> seen = new LinkedHashSet<>(Set.of(c.at()));
        good.stream()
                .filter(j -> !j.candidate().at().equals(c.at()) && has(j.covers(), only))
                .sorted(Comparator.comparing(j -> beside(j.candidate(), open)))
                .filter(j -> seen.add(j.candidate().at()))
                .limit(TOLD)
                .forEach(j -> instead.add(
                        new Placement.Instead(j.candidate().said(), beside(j.candidate(), open), List.of())));
        bad.stream()
                .filter(j -> has(j.covers(), only) && beside(j.candidate(), open) < cost)
                .sorted(Comparator.comparing((Judged j) -> j.reasons().size())
                        .thenComparing(j -> beside(j.candidate(), open)))
                .filter(j -> seen.add(j.candidate().at()))
                .limit(TOLD)
                .forEach(j -> instead.add(
                        new Placement.Instead(j.candidate().said(), beside(j.candidate(), open), j.reasons())));
        return new Placement.Placed(c.at(), c.what(), cost, demands(its), demands(only), instead);
    }

    /** What it costs where some boxes and panels are open anyway. */
    private int beside(Candidate c, Set<String> open) {
        return c.price()
                + c.sites().stream()
                        .filter(s -> !open.contains(s))
                        .mapToInt(s -> costs.open(house, s))
                        .sum();
    }

    private static boolean has(BitSet all, BitSet some) {
        BitSet left = (BitSet) some.clone();
        left.andNot(all);
        return left.isEmpty() && !some.isEmpty();
    }

    private List<Demand> demands(BitSet some) {
        return some.stream().mapToObj(demands::get).toList();
    }

    private List<String> why(int d) {
        if (good.stream().anyMatch(j -> j.covers().get(d))) {
            return List.of(
                    "It can be covered by itself, not together with what covers the others: place it alone to see how.");
        }
        List<String> why = new ArrayList<>();
        Set<String> seen = new LinkedHashSet<>();
        bad.stream()
                .filter(j -> j.covers().get(d))
                .sorted(Comparator.comparing((Judged j) -> j.reasons().size())
                        .thenComparing(j -> j.candidate().price()))
                .filter(j -> seen.add(j.candidate().at()))
                .limit(TOLD)
                .forEach(j -> why.add(j.candidate().said() + ". But: " + String.join(" ", j.reasons())));
        return why.isEmpty() ? List.of(bare(demands.get(d))) : why;
    }

    /** Where not even what may not be done would cover it. */
    private String bare(Demand demand) {
        LoadPointWiring l = wiring.loadPoints().stream()
                .filter(p -> p.id().equals(demand.point()))
                .findFirst()
                .orElseThrow();
        if (l.feeds().isEmpty()) {
            return "The record does not show what feeds it.";
        }
        if (l.feeds().stream().allMatch(f -> f.sureness() == Sureness.MAY)) {
            return "What feeds it is only possible (" + feeds(l) + "): map it first.";
        }
        Map<String, Breaker> breakers = new TreeMap<>();
        for (Panel p : house.panels().values()) {
            p.breakers().values().forEach(b -> breakers.put(p.name() + "." + b.key(), b));
        }
        boolean isFused = l.feeds().stream()
                .map(f -> breakers.get(f.breaker()))
                .anyMatch(b -> b != null && b.type() == OvercurrentType.FUSE);
        if (isFused) {
            return "Its circuit is on a fuse, and no receptacle on its way covers it.";
        }
        return l.feeds().stream().map(Feed::breaker).distinct().count() > 1
                ? "More than one breaker feeds it, or may (" + feeds(l) + "): no one device is on every way to it."
                : "Nothing that can be put in on its way covers it for certain: part of that way is not known, or its neutral"
                        + " comes back past the device.";
    }

    private static String feeds(LoadPointWiring l) {
        return String.join(
                ", ", l.feeds().stream().map(Feed::breaker).distinct().toList());
    }

    /** Faces without a ground that are ground-fault protected now: NEC 406.4(D)(2). */
    private List<String> labels(BitSet covered) {
        Set<String> protectedNow = new LinkedHashSet<>();
        demands(covered).stream()
                .filter(d -> d.function() == Protection.GROUND_FAULT)
                .forEach(d -> protectedNow.add(d.point()));
        return found.stream()
                .filter(f -> f.rule().equals(Protecting.UNGROUNDED) && protectedNow.containsAll(f.outlets()))
                .map(f -> f.subject()
                        + ": no ground comes to it, or perhaps none. Then its face has to say so, and that it is"
                        + " protected; the sheet labels has the words.")
                .toList();
    }
}
