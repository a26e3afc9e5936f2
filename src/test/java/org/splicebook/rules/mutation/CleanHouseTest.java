package org.splicebook.rules.mutation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;

/** A house wired as the code asks has no findings. */
class CleanHouseTest {
    static IntStream seeds() {
        return IntStream.range(0, 20);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void nothingIsFoundInACleanHouse(int seed) {
        List<Finding> found = Checks.of(CleanHouse.of(seed).house(), Packs.us(2023));
        assertThat(found)
                .filteredOn(f -> !CleanHouse.ASKED.contains(f.rule()))
                .as("seed %d", seed)
                .extracting(f -> f.certainty() + " " + f.rule() + " " + f.subject() + ": " + f.said())
                .isEmpty();
    }
}
