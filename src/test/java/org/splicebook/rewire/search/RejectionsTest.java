package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Result;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;

/** What merely looks right is turned down, with the reason. */
class RejectionsTest {
    private static final Pack PACK = Packs.us(Packs.USUAL_EDITION);

    /** One breaker for both would make the neutral its own; the hot would still come in another cable. */
    @Test
    void aHotInOneCableAndItsNeutralInAnother() throws IOException {
        House house = Puzzles.read("golden/borrowed-by-stair-light");
        Found found = search(house, "borrowed-neutral");
        assertThat(found.rejected())
                .flatExtracting(Rejected::reasons)
                .anyMatch(r -> r.contains("Return in another cable than the feed"));
        for (Proposal p : found.proposals()) {
            assertThat(p.steps()).noneMatch(s -> s.contains("put a breaker"));
        }
    }

    /** A switch with a neutral would work on the only one in its box, which is another circuit's. */
    @Test
    void anotherCircuitsNeutral() throws IOException {
        House house = Puzzles.read("rewire/puzzles/neutral-of-another-circuit");
        Found found = search(house, "put=s:smart-switch");
        assertThat(found.rejected()).first().satisfies(r -> {
            assertThat(r.steps()).contains("door: move s.neutral to K3.white.");
            assertThat(r.reasons()).singleElement().asString().contains("Neutral borrowed from another circuit");
        });
    }

    /** The tabs broken and one half brought on the other circuit in the box: each half has its own hot and neutral. */
    @Test
    void twoBreakersOnOneYokeThatDoNotOpenTogether() throws IOException {
        House house = Puzzles.read("rewire/puzzles/duplex-beside-another-circuit");
        List<Move> moves = List.of(
                new Move.SetTab("r", "hot", false),
                new Move.SetTab("r", "neutral", false),
                new Move.Shift("pair", "r.bottom.hot", "K2.black"),
                new Move.Shift("pair", "r.bottom.neutral", "K2.white"));
        Validation.Verdict v = judged(house, Wish.parse("apart=r.top,r.bottom").get(), moves);
        assertThat(v.isReached()).isTrue();
        assertThat(v.reasons()).anyMatch(r -> r.contains("Two circuits on one yoke"));
        Breaker both = breaker(house, "1", List.of("1", "3"));
        List<Move> tied = WireAtoms.plus(moves, new Move.ChangeBreaker("main", List.of("1", "3"), both));
        assertThat(judged(house, Wish.parse("free=r.top").get(), tied).reasons())
                .noneMatch(r -> r.contains("yoke"));
    }

    /** The two hots of a shared neutral on one leg: it would carry both currents, and no breaker would see it. */
    @Test
    void aSharedNeutralOnOneLeg() throws IOException {
        House house = Puzzles.read("golden/multiwire-untied");
        List<Move> moves = List.of(new Move.ChangeBreaker("main", List.of("3"), breaker(house, "3", List.of("5"))));
        Wish wish = new Wish.Cure(Puzzles.finding(house, "multiwire-without-common-disconnect"));
        assertThat(judged(house, wish, moves).reasons()).anyMatch(r -> r.contains("on one leg"));
    }

    /** One pole of a pair alone with ground-fault protection opens on the other's return. */
    @Test
    void oneProtectivePoleOnASharedNeutral() throws IOException {
        House house = Puzzles.read("golden/multiwire-untied");
        Breaker was = breaker(house, "1", List.of("1"));
        Breaker is = new Breaker(
                was.spaces(),
                was.type(),
                was.rating(),
                java.util.Set.of(Protection.GROUND_FAULT),
                true,
                null,
                true,
                was.position(),
                null,
                was.about());
        List<Move> moves = List.of(
                new Move.ChangeBreaker("main", List.of("1"), is), new Move.Shift("main", "K1.white", "1.neutral"));
        assertThat(judged(house, Wish.parse("ground-fault=r.top").get(), moves).reasons())
                .isNotEmpty();
    }

    /** A fuse is not offered a handle tie or a protective kind. */
    @Test
    void fusesStayFuses() throws IOException {
        House house = Puzzles.read("rewire/puzzles/lamp-on-fuses");
        Found found = search(house, "ground-fault=lamp");
        assertThat(found.proposals()).isEmpty();
        assertThat(found.exhausted()).isTrue();
    }

    /** The first look turns nothing away that would pass: whatever lets a load go dark or makes a short does not. */
    @Test
    void theFirstLookAgreesWithTheWholeJudgement() throws IOException {
        for (String file :
                List.of("golden/borrowed-by-stair-light", "golden/three-way-carter", "golden/range-four-wire")) {
            House house = Puzzles.read(file);
            State before = State.of(house, PACK);
            Wish wish = new Wish.Protect(
                    Protection.GROUND_FAULT,
                    List.of(before.points().keySet().iterator().next()));
            Validation validation = new Validation(before, PACK, wish);
            for (List<Move> atom : AllAtoms.of(before, wish)) {
                House after = Moves.apply(house, atom).isOk()
                        ? Moves.apply(house, atom).get()
                        : null;
                if (after != null
                        && validation.of(after, atom, true, many -> false).isTurnedAway()) {
                    assertThat(validation.whole(after, atom).reasons())
                            .as("%s: %s", file, atom)
                            .isNotEmpty();
                }
            }
        }
    }

    /** What is given up for so many reasons would have had as many; what has fewer is judged as ever. */
    @Test
    void whatIsGivenUpEarlyWouldBeRejected() throws IOException {
        House house = Puzzles.read("golden/borrowed-by-stair-light");
        State before = State.of(house, PACK);
        Validation validation = new Validation(before, PACK, Puzzles.wish(house, "borrowed-neutral"));
        int givenUp = 0;
        int passed = 0;
        for (List<Move> atom : AllAtoms.of(before)) {
            Result<House> after = Moves.apply(house, atom);
            if (after.isOk()) {
                Validation.Verdict full = validation.of(after.get(), atom, false, many -> false);
                Validation.Verdict early = validation.of(after.get(), atom, false, many -> many >= 2);
                boolean isGivenUp = !early.reasons().equals(full.reasons());
                assertThat(!isGivenUp || (full.reasons().size() >= 2 && !early.isReached()))
                        .as("%s", atom)
                        .isTrue();
                givenUp += isGivenUp ? 1 : 0;
                passed += early.isReached() ? 1 : 0;
            }
        }
        assertThat(givenUp).isPositive();
        assertThat(passed).isPositive();
    }

    private static Found search(House house, String wanted) {
        return Search.of(house, PACK, Puzzles.wish(house, wanted), Kinds.standard(), 2000, looked -> true)
                .get();
    }

    private static Validation.Verdict judged(House house, Wish wish, List<Move> moves) {
        State before = State.of(house, PACK);
        return new Validation(before, PACK, wish)
                .whole(Moves.apply(house, moves).get(), moves);
    }

    private static Breaker breaker(House house, String like, List<String> spaces) {
        Breaker b = java.util.Objects.requireNonNull(CircuitAtoms.breaker(house, "main." + like));
        return CircuitAtoms.like(b, spaces);
    }
}
