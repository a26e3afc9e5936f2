package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.rules.mutation.FaultyHouses;

/** The verdict by the part that a change can reach is that by the whole house. */
class SlicesEqualWholeTest {
    private static final Pack PACK = Checks.withoutWide(Packs.us(2023));

    /** How many moves were compared, and how many had to be judged by the whole house anyway. */
    private record Compared(int moves, int whole, List<String> differences) {
        Compared plus(Compared o) {
            List<String> all = new ArrayList<>(differences);
            all.addAll(o.differences);
            return new Compared(moves + o.moves, whole + o.whole, all);
        }
    }

    @Test
    void aPartTellsWhatTheWholeTells() {
        Compared c = compare(sample(), 12, 1)
                .plus(compare(RandomHouses.house(3, Shape.SMALL), 10, 3))
                .plus(compare(FaultyHouses.of(5).house(), 10, 5));
        assertThat(c.differences()).isEmpty();
        assertThat(c.whole()).isLessThan(c.moves() / 2);
    }

    /** The bar's joint is written with all wires on it; the other circuits there are left out all the same. */
    @Test
    void aWireOnABarTakesItsOwnCircuitAlone() {
        House house = sample();
        Move move = new Move.Shift("main", "C13a.white", "g");
        Slices.Part part =
                new Slices(house).of(Moves.apply(house, List.of(move)).get());
        assertThat(part).isNotNull();
        assertThat(part.cables()).contains("C13a", "C13b", "C13c").doesNotContain("C1a", "C5a", "C18a");
    }

    /** A feeder takes the panel that it feeds along, and not the circuits of the panel that it comes from. */
    @Test
    void whatAFeederReachesIsJudgedAsInTheWhole() {
        House house = sample();
        Move move = new Move.Shift("main", "F1.black", "20");
        Slices.Part part =
                new Slices(house).of(Moves.apply(house, List.of(move)).get());
        assertThat(part).isNotNull();
        assertThat(part.cables()).contains("F1", "G1a", "G2a", "G3a", "C20a").doesNotContain("C1a", "C5a");
        State before = State.of(house, PACK);
        List<List<Move>> feeder = AllAtoms.of(before).stream()
                .filter(moves -> moves.stream().anyMatch(m -> m.toString().contains("F1.")))
                .toList();
        assertThat(feeder).hasSizeGreaterThan(100);
        List<List<Move>> some = IntStream.range(0, 30)
                .mapToObj(i -> feeder.get(i * feeder.size() / 30))
                .toList();
        assertThat(compare(before, some, 30, 7).differences()).isEmpty();
    }

    @Test
    @Tag("full")
    void manyRandomMoves() {
        int moves = Integer.getInteger("search.moves", 800);
        Compared c = compare(sample(), moves / 2, 1);
        int seed = 0;
        while (c.moves() < moves) {
            seed++;
            c = c.plus(compare(RandomHouses.house(seed, Shape.SMALL), 50, seed))
                    .plus(compare(FaultyHouses.of(seed).house(), 50, seed));
        }
        System.out.printf(
                "%d random moves, %d of them judged by the whole house anyway, differ: %d%n",
                c.moves(), c.whole(), c.differences().size());
        assertThat(c.differences()).isEmpty();
    }

    private static House sample() {
        return HouseFiles.read(Path.of("sample-house")).get();
    }

    private static Compared compare(House house, int many, long seed) {
        State before = State.of(house, PACK);
        return compare(before, AllAtoms.of(before), many, seed);
    }

    private static Compared compare(State before, List<List<Move>> atoms, int many, long seed) {
        House house = before.house();
        Random random = new Random(seed);
        Wish wish = new Wish.Protect(
                Protection.GROUND_FAULT,
                List.of(before.points().keySet().stream()
                        .skip(random.nextInt(before.points().size()))
                        .findFirst()
                        .orElseThrow()));
        Validation validation = new Validation(before, PACK, wish);
        Slices slices = new Slices(house);
        List<String> differences = new ArrayList<>();
        int compared = 0;
        int whole = 0;
        for (int i = 0; i < 4 * many && compared < many && !atoms.isEmpty(); i++) {
            List<Move> moves = atoms.get(random.nextInt(atoms.size()));
            Result<House> made = Moves.apply(house, moves);
            if (made.isOk()) {
                compared++;
                whole += slices.of(made.get()) == null ? 1 : 0;
                Validation.Verdict a = validation.part(made.get(), moves);
                Validation.Verdict b = validation.whole(made.get(), moves);
                if (a.isReached() != b.isReached()
                        || !said(a.reasons()).equals(said(b.reasons()))
                        || !said(a.beside()).equals(said(b.beside()))) {
                    differences.add(house.id() + ", seed " + seed + ": " + moves + ": part " + a.reasons() + a.beside()
                            + ", whole " + b.reasons() + b.beside());
                }
            }
        }
        return new Compared(compared, whole, differences);
    }

    /** What currents do is said by the load case; the rest of the house shifts them a little. */
    private static Set<String> said(List<String> reasons) {
        return reasons.stream().filter(r -> !r.endsWith(" loads).")).collect(Collectors.toSet());
    }
}
