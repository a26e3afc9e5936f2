package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.panelplan.DemandLoad.Kind;

/** What loads come to by themselves adds up to what the method says of all. */
class SharedDemandTest {
    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void sharesAddUpToTheStandardMethodWithoutItsMotor(long seed) {
        Random r = new Random(seed);
        List<DemandLoad> loads = new ArrayList<>();
        for (int i = 0; i < r.nextInt(12); i++) {
            Kind kind = Kind.values()[r.nextInt(Kind.values().length)];
            loads.add(new DemandLoad("l" + i, kind, 100.0 + r.nextInt(12_000), false, false, false, null));
        }
        Dwelling d = new Dwelling(500.0 + r.nextInt(4000), 2, 1, loads, 240, 200.0, List.of());
        for (int edition : Demands.editions()) {
            SharedDemand shared = SharedDemand.of(d, edition);
            double sum = shared.general()
                    + shared.loads().values().stream().mapToDouble(x -> x).sum();
            assertThat(sum)
                    .as("seed %d, %d", seed, edition)
                    .isCloseTo(Demands.standard(d, edition).va(), within(1e-6));
        }
    }
}
