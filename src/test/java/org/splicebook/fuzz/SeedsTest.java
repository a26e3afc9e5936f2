package org.splicebook.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Every target reads what the fuzzer begins with, and a few inputs that are broken. */
class SeedsTest {
    @ParameterizedTest
    @EnumSource(Target.class)
    void everySeedIsReadOrRefused(Target target) {
        List<byte[]> seeds = target.seeds();
        assertThat(seeds).isNotEmpty();
        seeds.forEach(s -> Fuzz.run(target, s));
        byte[] first = seeds.get(0);
        Fuzz.run(target, new byte[0]);
        Fuzz.run(target, java.util.Arrays.copyOf(first, first.length / 2));
        Fuzz.run(target, new byte[] {0, -1, -2, '\n', '"', '{', 0});
    }
}
