package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.Derivation;

/** Small houses whose best change was found by hand: {@code puzzles.csv} tells it, and why. */
class PuzzlesTest {
    private static final Pack PACK = Packs.us(Packs.USUAL_EDITION);

    @ParameterizedTest
    @CsvFileSource(resources = Puzzles.TABLE, delimiter = '|', useHeadersInDisplayName = true)
    void theBestIsFirst(String file, String wanted, String cost, String steps, String why) throws IOException {
        House house = Puzzles.read(file);
        Found found = Search.of(house, PACK, Puzzles.wish(house, wanted), Kinds.standard(), 2000, looked -> true)
                .get();
        if (cost.equals("none")) {
            assertThat(found.proposals()).as(why).isEmpty();
            return;
        }
        assertThat(found.proposals())
                .as("%s, rejected: %s", why, found.rejected())
                .isNotEmpty();
        Proposal best = found.proposals().get(0);
        assertThat(best.cost().said() + " / " + String.join(" ", best.steps()))
                .as(why)
                .isEqualTo(cost + " / " + steps);
        for (Proposal p : found.proposals()) {
            House after = Moves.apply(house, p.moves()).get();
            if (!wanted.contains("=")) {
                assertThat(Checks.of(after, PACK))
                        .extracting(Finding::key)
                        .doesNotContain(Puzzles.finding(house, wanted));
            }
        }
    }

    /** Whoever ends a search has what it found so far, and is told that it is not all. */
    @Test
    void aSearchThatIsEndedTellsWhatItFound() throws IOException {
        House house = Puzzles.read("golden/borrowed-by-stair-light");
        Wish wish = Puzzles.wish(house, "borrowed-neutral");
        Found none = Search.of(house, PACK, wish, Kinds.standard(), 2000, judged -> false)
                .get();
        assertThat(none.looked()).isZero();
        assertThat(none.exhausted()).isFalse();
        Found some = Search.of(house, PACK, wish, Kinds.standard(), 2000, judged -> judged < 150)
                .get();
        assertThat(some.proposals()).isNotEmpty();
        assertThat(some.exhausted()).isFalse();
    }

    /** Asked twice, it tells the same in the same order. */
    @Test
    void theOrderIsStable() throws IOException {
        for (Puzzles.Puzzle p : Puzzles.all().subList(1, 6)) {
            assertThat(search(p)).as(p.file()).isEqualTo(search(p));
        }
    }

    /** Of two changes that cost the same, the one that leaves the finished ceiling closed is done first. */
    @Test
    void aCoverInAFinishedCeilingStaysClosed() throws IOException {
        House house = Puzzles.read("rewire/puzzles/box-or-ceiling");
        Cost ceiling = Cost.of(house, List.of(new Move.Cap("ceiling", "K2.black")));
        Cost wall = Cost.of(house, List.of(new Move.Cap("wall", "K1.black")));
        assertThat(ceiling.said()).isEqualTo(wall.said());
        assertThat(wall).isLessThan(ceiling);
    }

    private static List<Proposal> search(Puzzles.Puzzle p) {
        return Search.of(p.house(), PACK, p.wish(), Kinds.standard(), 2000, judged -> true)
                .get()
                .proposals();
    }

    /** Two poles of one breaker would hide the loop from the checks; the joint must be parted. */
    @Test
    void aLoopOfNeutralsIsParted() throws IOException {
        House house = Puzzles.read("golden/neutral-islands-joined");
        Found found = Search.of(
                        house, PACK, Puzzles.wish(house, "neutrals-joined"), Kinds.standard(), 2000, looked -> true)
                .get();
        assertThat(found.proposals()).isNotEmpty();
        for (Proposal p : found.proposals()) {
            assertThat(Derivation.derive(Moves.apply(house, p.moves()).get()).islands())
                    .as("%s", p.steps())
                    .noneMatch(i -> i.landings().size() > 1 && i.poles().size() > 1);
        }
    }
}
