package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.Kinds;
import org.splicebook.oracle.Served;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.rules.Severity;
import org.splicebook.rules.mutation.FaultyHouses;

/** Proposals for random faulty houses, judged by the flood of the raw netlist, by currents case by case, and by the checks. */
class ProposalsHoldTest {
    private static final Pack PACK = Packs.us(2023);
    private static final int MOST = Integer.getInteger("search.most", 150);

    /** How often a change was found, by what was done to the house. */
    private record Tally(int houses, int found, long millis) {
        Tally plus(Tally o) {
            return new Tally(houses + o.houses, found + o.found, millis + o.millis);
        }
    }

    @Test
    void everyProposalHolds() {
        int[] some = {1, 10, 30};
        List<String> wrong = new ArrayList<>();
        Tally all = new Tally(0, 0, 0);
        for (int seed : some) {
            all = all.plus(look(seed, wrong));
        }
        assertThat(wrong).isEmpty();
        assertThat(all.found()).as("houses for which a change was found").isPositive();
    }

    @Test
    @Tag("full")
    void everyProposalHoldsInManyHouses() {
        int houses = Integer.getInteger("search.houses", 30);
        int first = Integer.getInteger("search.first", 0);
        List<String> wrong = new ArrayList<>();
        Map<String, Tally> by = new TreeMap<>();
        for (int seed = first; seed < first + houses; seed++) {
            by.merge(FaultyHouses.of(seed).fault(), look(seed, wrong), Tally::plus);
        }
        Tally all = by.values().stream().reduce(new Tally(0, 0, 0), Tally::plus);
        by.forEach((fault, t) -> System.out.printf("%3d of %3d  %s%n", t.found(), t.houses(), fault));
        System.out.printf(
                "%d faulty houses, a change found for %d, %d ms each on average; wrong: %d%n",
                all.houses(), all.found(), all.millis() / Math.max(1, all.houses()), wrong.size());
        wrong.forEach(System.out::println);
        assertThat(wrong).isEmpty();
    }

    private static Tally look(int seed, List<String> wrong) {
        FaultyHouses.Faulty f = FaultyHouses.of(seed);
        List<Finding> before = Checks.of(f.house(), PACK);
        String target = f.findings().stream()
                .filter(k -> before.stream().anyMatch(x -> x.key().equals(k)))
                .findFirst()
                .orElse(null);
        if (target == null) {
            return new Tally(0, 0, 0);
        }
        long start = System.nanoTime();
        Found found = Search.of(f.house(), PACK, new Wish.Cure(target), Kinds.standard(), MOST, looked -> true)
                .get();
        long millis = (System.nanoTime() - start) / 1_000_000;
        Map<String, Double> was = null;
        for (Proposal p : found.proposals()) {
            House after = Moves.apply(f.house(), p.moves()).get();
            was = was == null ? Physics.wrong(f.house()) : was;
            List<String> problems = new ArrayList<>(Served.worse(f.house(), after));
            problems.addAll(checks(target, before, Checks.of(after, PACK), p.moves()));
            problems.addAll(physics(was, Physics.wrong(after)));
            if (!problems.isEmpty()) {
                wrong.add(
                        "seed " + seed + ", " + f.fault() + ", to cure " + target + ": " + p.steps() + ": " + problems);
            }
        }
        return new Tally(1, found.proposals().isEmpty() ? 0 : 1, millis);
    }

    private static List<String> checks(String target, List<Finding> before, List<Finding> after, List<Move> moves) {
        Severity cured = before.stream()
                .filter(f -> f.key().equals(target))
                .findFirst()
                .orElseThrow()
                .severity();
        Map<String, String> renamed = new TreeMap<>();
        for (Move m : moves) {
            if (m instanceof Move.ChangeBreaker c && c.is() != null) {
                c.was().forEach(w -> renamed.put(c.panel() + "." + w, c.panel() + "." + c.is().key()));
            }
        }
        Map<String, Certainty> known = new TreeMap<>();
        before.forEach(f -> known.put(f.rule() + "/" + renamed.getOrDefault(f.subject(), f.subject()), f.certainty()));
        List<String> all = new ArrayList<>();
        for (Finding f : after) {
            if (f.key().equals(target)) {
                all.add("not cured");
            }
            Certainty was = known.get(f.key());
            boolean isNew = was == null || f.certainty().compareTo(was) < 0;
            // What a check asks of the record at large (how long is the new cable?) is for whoever does the work.
            boolean isQuestion = f.certainty() == Certainty.ASKED && f.subject().equals("house");
            if (isNew
                    && !isQuestion
                    && (f.severity() != Severity.ADVICE || f.severity().compareTo(cured) <= 0)) {
                all.add("new finding " + f.key() + ": " + f.said());
            }
        }
        return all;
    }

    private static List<String> physics(Map<String, Double> before, Map<String, Double> after) {
        return after.entrySet().stream()
                .filter(e -> !before.containsKey(e.getKey()))
                .map(e -> e.getKey() + " (" + Math.round(e.getValue() * 1000) + " mA)")
                .collect(Collectors.toCollection(TreeSet::new))
                .stream()
                .toList();
    }
}
