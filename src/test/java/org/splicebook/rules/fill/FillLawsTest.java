package org.splicebook.rules.fill;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds of every count, on random boxes. */
class FillLawsTest {
    private static final List<String> SIZES = List.of("18", "16", "14", "12", "10", "8", "6");
    private static final List<Integer> EDITIONS = List.of(2014, 2017, 2020, 2023, 2026);

    static IntStream seeds() {
        return IntStream.range(0, 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void addingAnythingNeverLowersTheFill(int seed) {
        Contents in = box(seed);
        for (int edition : EDITIONS) {
            Room before = used(in, edition);
            for (FillTables.Extra e : FillTables.EXTRAS) {
                notLess(used(in.with(e), edition), before, "seed " + seed + ", " + e.say());
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void orderDoesNotMatter(int seed) {
        Contents in = box(seed);
        List<Contents.Wire> wires = new ArrayList<>(in.wires());
        List<Contents.Wire> grounds = new ArrayList<>(in.grounds());
        Collections.shuffle(wires, new Random(seed));
        Collections.shuffle(grounds, new Random(seed));
        Contents other = new Contents(
                wires, grounds, in.yokes(), in.clamps(), in.fittings(), in.blocks(), in.leads(), in.mayHoldMore());
        assertThat(used(other, 2023).least())
                .as("seed %d", seed)
                .isEqualTo(used(in, 2023).least(), near());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void laterEditionsNeverCountLess(int seed) {
        Contents in = box(seed);
        for (int i = 1; i < EDITIONS.size(); i++) {
            notLess(used(in, EDITIONS.get(i)), used(in, EDITIONS.get(i - 1)), "seed " + seed);
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void knowingLessWidensTheRange(int seed) {
        Contents in = box(seed);
        List<Contents.Wire> wires = new ArrayList<>(in.wires());
        Contents.Wire one = wires.get(0);
        wires.set(0, new Contents.Wire(one.name(), null, 0, one.most()));
        Contents less = new Contents(
                wires, in.grounds(), in.yokes(), null, in.fittings(), in.blocks(), in.leads(), in.mayHoldMore());
        assertThat(used(less, 2023).least())
                .as("seed %d", seed)
                .isLessThanOrEqualTo(used(in, 2023).least() + 1e-9);
        assertThat(used(less, 2023).most()).as("seed %d", seed).isNull();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theLeastIsNeverMoreThanTheMost(int seed) {
        for (int edition : EDITIONS) {
            Room used = used(box(seed), edition);
            if (used.most() != null) {
                assertThat(used.least()).as("seed %d", seed).isLessThanOrEqualTo(used.most() + 1e-9);
            }
        }
    }

    private static Room used(Contents in, int edition) {
        return Tally.used(in, FillTables.method(edition));
    }

    private static void notLess(Room after, Room before, String as) {
        assertThat(after.least()).as(as).isGreaterThanOrEqualTo(before.least() - 1e-9);
        if (after.most() != null) {
            assertThat(before.most()).as(as).isNotNull();
            assertThat(after.most()).as(as).isGreaterThanOrEqualTo(before.most() - 1e-9);
        }
    }

    private static org.assertj.core.data.Offset<Double> near() {
        return org.assertj.core.data.Offset.offset(1e-9);
    }

    private static Contents box(int seed) {
        Random random = new Random(seed);
        List<Contents.Wire> wires = new ArrayList<>();
        List<Contents.Wire> grounds = new ArrayList<>();
        List<Contents.Yoke> yokes = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(10); i++) {
            int fewest = random.nextInt(4) == 0 ? 0 : 1;
            wires.add(new Contents.Wire("w" + i, size(random), fewest, fewest + random.nextInt(2)));
        }
        for (int i = 0; i < random.nextInt(8); i++) {
            grounds.add(new Contents.Wire("g" + i, size(random), random.nextInt(5) == 0 ? 0 : 1, 1));
        }
        for (int i = 0; i < random.nextInt(3); i++) {
            yokes.add(new Contents.Yoke("d" + i, Sizes.of(size(random)), 1, 1 + random.nextInt(2)));
        }
        @Nullable Boolean clamps = random.nextInt(3) == 0 ? null : Boolean.valueOf(random.nextBoolean());
        List<Contents.Block> blocks =
                random.nextBoolean() ? List.of() : List.of(new Contents.Block(Sizes.of(size(random))));
        return new Contents(
                wires,
                grounds,
                yokes,
                clamps,
                random.nextBoolean() ? List.of("stud") : List.of(),
                blocks,
                List.of(new Contents.Leads("l", 0, random.nextInt(3))),
                random.nextInt(6) == 0);
    }

    private static @Nullable String size(Random random) {
        return random.nextInt(12) == 0 ? null : SIZES.get(random.nextInt(SIZES.size()));
    }
}
