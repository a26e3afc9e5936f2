package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.housefile.HouseFiles;

/** The netlist that people are given says, in a general circuit simulator, what the program says. */
class SpiceTextIT {
    private static final long SAMPLE_HOUSE = -1;

    @TempDir
    static Path folder;

    @BeforeAll
    static void ngspiceIsThere() {
        String how = "ngspice is missing: apt-get install ngspice";
        assertThat(Ngspice.isThere() || !"true".equals(System.getenv("CI")))
                .as(how)
                .isTrue();
        Assumptions.assumeTrue(Ngspice.isThere(), how);
    }

    static LongStream seeds() {
        return LongStream.range(SAMPLE_HOUSE, 30);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void netlistGivesTheSameVoltsInASimulator(long seed) {
        LoadFlow flow = LoadFlow.of(
                seed == SAMPLE_HOUSE ? HouseFiles.read(Path.of("sample-house")).get() : RandomStates.house(seed));
        LoadCase state =
                seed == SAMPLE_HOUSE ? LoadCase.of(LoadCase.Base.ALL_ON) : RandomStates.of(flow.circuit(), seed, 3);
        Solution s = flow.solve(state).get();
        Map<String, Complex> simulated = new Ngspice(folder).volts(SpiceText.of(s));
        for (int v = 1; v < flow.circuit().nodes().size(); v++) {
            Volts ours = s.volts(v, 0);
            if (!ours.floats()) {
                assertThat(ours.known().minus(simulated.get(String.valueOf(v))).magnitude())
                        .as(flow.circuit().nodes().get(v))
                        .isLessThan(1e-4);
            }
        }
    }
}
