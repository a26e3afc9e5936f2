package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;

/** Cases as people write them, on the sample house. */
class CaseReaderTest {
    private static final LoadFlow FLOW =
            LoadFlow.of(HouseFiles.read(Path.of("sample-house")).get());

    private final CaseReader reader = new CaseReader(FLOW);

    @Test
    void loadsAreReadInWattsAmperesAndOhms() {
        reader.load("heater", "4500 W");
        reader.load("sump", "0.5 kW power 0.8");
        reader.load("freezer", "12 A");
        reader.load("fridge.top", "9.6 ohm");
        reader.load("laundry", "off");
        LoadCase c = reader.read().get();
        assertThat(c.loads())
                .containsEntry("heater", Load.watts(4500))
                .containsEntry("sump", Load.power(500, 0.8))
                .containsEntry("freezer", Load.amperes(12, 1))
                .containsEntry("fridge.top", Load.ohms(9.6))
                .containsEntry("laundry", Load.OFF);
    }

    @Test
    void roomThatIsOffTakesNothingButWhatIsNamedInIt() {
        reader.load("laundry", "off");
        reader.load("washer.top", "500 W");
        Solution s = FLOW.solve(reader.read().get()).get();
        assertThat(s.amperes("washer.top").magnitude()).isGreaterThan(4);
        assertThat(s.amperes("dryer[hot-1,hot-2]").magnitude()).isZero();
    }

    @Test
    void faultsAreRead() {
        reader.fault("open service.n");
        reader.fault("loose main:C2a.black 0.5 ohm");
        reader.fault("touch main.n main.g");
        reader.fault("leak main.9 main.g 5 mA");
        reader.fault("on-leg main.9 main.b");
        assertThat(reader.read().get().faults())
                .containsExactly(
                        new Fault.Open("service.n"),
                        new Fault.Loose("main:C2a.black", 0.5),
                        new Fault.Touch("main.n", "main.g", 0),
                        new Fault.Touch("main.9", "main.g", 24000),
                        new Fault.OnLeg("main.9", "main.b"));
    }

    @Test
    void everyMistakeIsToldAtOnce() {
        reader.base("some-on");
        reader.load("heater", "much");
        reader.load("nowhere", "12 A");
        reader.lever("nothing", "up");
        reader.fault("melted C2a");
        assertThat(reader.read().problems())
                .hasSize(5)
                .allSatisfy(p -> assertThat(p.cure()).isNotEmpty());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "-5 W",
                "12",
                "0 ohm",
                "12 W power 3",
                "1e9 W",
                "NaN W",
                "12 A power",
                "100000000 W",
                "",
                "12 ohm 0.5"
            })
    void whatIsNoLoadIsRefused(String said) {
        reader.load("heater", said);
        assertThat(reader.read().problems())
                .extracting(Problem::cure)
                .singleElement()
                .asString()
                .contains("1500 W");
    }

    @Test
    void circuitAtItsRatingCarriesItsBreakersAmperes() {
        reader.base("rated:main.9");
        Solution s = FLOW.solve(reader.read().get()).get();
        assertThat(s.amperes("main.9").magnitude()).isCloseTo(20, within(0.05));
        assertThat(s.amperes("main.19").magnitude()).isLessThan(0.01);
    }

    @Test
    void twoPoleCircuitAtItsRatingCarriesItInBothPoles() {
        reader.base("rated:main.2+4");
        Solution s = FLOW.solve(reader.read().get()).get();
        assertThat(s.amperes("main.2").magnitude()).isCloseTo(30, within(0.05));
        assertThat(s.amperes("main.4").magnitude()).isCloseTo(30, within(0.05));
    }

    @Test
    void breakerThatFeedsNothingCannotBeAtItsRating() {
        reader.base("rated:main.35");
        assertThat(reader.read().problems()).hasSize(1);
    }
}
