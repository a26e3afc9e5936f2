package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.rules.Severity;
import org.splicebook.rules.mutation.FaultyHouses;

/**
 * The best that the search finds costs what the best of all pairs of steps costs, anywhere in a small house, each judged as a whole house
 * with no first look and nothing given up. Only what would be cheaper than the search's best has to be judged for that.
 */
class ExhaustiveTest {
    private static final Pack PACK = Packs.us(Packs.USUAL_EDITION);

    /** What was compared. */
    private record Compared(int wishes, int judged, int found, List<String> differences) {
        Compared plus(Compared o) {
            List<String> all = new ArrayList<>(differences);
            all.addAll(o.differences);
            return new Compared(wishes + o.wishes, judged + o.judged, found + o.found, all);
        }
    }

    private static final Compared NOTHING = new Compared(0, 0, 0, List.of());

    @Test
    void theBestOfAFewIsTheBestOfAll() throws Exception {
        Compared c = NOTHING;
        for (Puzzles.Puzzle p : Puzzles.all()) {
            if (p.house().boxes().size() == 1) {
                c = c.plus(compare(p.house(), p.wish(), 60));
            }
        }
        assertThat(c.differences()).isEmpty();
        assertThat(c.found()).isPositive();
    }

    @Test
    @Tag("full")
    void theBestOfEveryPuzzleIsTheBestOfAll() throws Exception {
        Compared c = NOTHING;
        for (Puzzles.Puzzle p : Puzzles.all()) {
            c = c.plus(compare(p.house(), p.wish(), Integer.getInteger("search.exhaustive", 400)));
        }
        tell(c);
    }

    @Test
    @Tag("full")
    void theBestOfFaultyHousesIsTheBestOfAll() {
        Compared c = NOTHING;
        int houses = Integer.getInteger("search.faulty", 4);
        for (int seed = 0; seed < houses; seed++) {
            FaultyHouses.Faulty f = FaultyHouses.of(seed);
            State before = State.of(f.house(), PACK);
            String key = before.findings().stream()
                    .filter(x -> f.findings().contains(x.key()))
                    .filter(x -> x.certainty() == Certainty.FOUND && x.severity() != Severity.ADVICE)
                    .map(x -> x.key())
                    .findFirst()
                    .orElse(null);
            if (key != null) {
                c = c.plus(compare(f.house(), new Wish.Cure(key), Integer.getInteger("search.exhaustive", 60)));
            }
        }
        tell(c);
    }

    private static void tell(Compared c) {
        System.out.printf(
                "%d wishes, %d with a change found, %d further changes judged as whole houses; differ: %d%n",
                c.wishes(), c.found(), c.judged(), c.differences().size());
        c.differences().forEach(System.out::println);
        assertThat(c.differences()).isEmpty();
    }

    private static Compared compare(House house, Wish wish, int most) {
        Found found = Search.of(house, PACK, wish, Kinds.standard(), 4000, looked -> true)
                .get();
        Cost best =
                found.proposals().isEmpty() ? null : found.proposals().get(0).cost();
        State before = State.of(house, PACK);
        Validation validation = new Validation(before, PACK, wish);
        List<String> differences = new ArrayList<>();
        int judged = 0;
        Map<House, Boolean> seen = new LinkedHashMap<>();
        List<List<Move>> first = AllAtoms.of(before, wish);
        for (List<Move> a : first) {
            Result<House> once = Moves.apply(house, a);
            if (!once.isOk() || judged >= most) {
                continue;
            }
            judged += judge(house, once.get(), a, best, validation, before, seen, wish, differences);
            List<List<Move>> second =
                    mayBeCheaper(house, a, best) ? AllAtoms.of(State.unchecked(once.get()), wish) : List.of();
            for (List<Move> b : second) {
                List<Move> both = WireAtoms.plus(a, b.toArray(Move[]::new));
                if (judged < most && mayBeCheaper(house, both, best)) {
                    Result<House> twice = Moves.apply(once.get(), b);
                    if (twice.isOk()) {
                        judged += judge(house, twice.get(), both, best, validation, before, seen, wish, differences);
                    }
                }
            }
        }
        return new Compared(1, judged, best == null ? 0 : 1, differences);
    }

    /** Without new cable, and cheaper even if no load point came on another circuit. */
    private static boolean mayBeCheaper(House house, List<Move> moves, @Nullable Cost best) {
        Cost c = Cost.of(house, moves);
        return c.cables() == 0 && (best == null || Cost.TOLD.compare(c, best) < 0);
    }

    private static int judge(
            House house,
            House after,
            List<Move> moves,
            @Nullable Cost best,
            Validation validation,
            State before,
            Map<House, Boolean> seen,
            Wish wish,
            List<String> differences) {
        if (!mayBeCheaper(house, moves, best) || seen.putIfAbsent(after, true) != null) {
            return 0;
        }
        Validation.Verdict v = validation.whole(after, moves);
        Cost cost = Cost.of(house, moves).withMoved(Service.moved(before, v.after(), moves));
        if (v.isReached() && v.reasons().isEmpty() && (best == null || Cost.TOLD.compare(cost, best) < 0)) {
            differences.add(house.id() + ", to " + wish.said() + ": " + moves + " takes " + cost.said()
                    + ", the search found " + (best == null ? "nothing" : best.said()));
        }
        return 1;
    }
}
