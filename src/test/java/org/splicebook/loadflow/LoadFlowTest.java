package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

class LoadFlowTest {
    private static final String SHARED = """
            splicebook: 1
            house: shared-neutral
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources: {service: {system: split-phase 120/240, bond: main}}
            panels:
              main:
                supply: service
                breakers:
                  1: {rating: 20 A}
                  3: {rating: 20 A}
                  2+4: {rating: 30 A}
                joints: [[1, K1.black], [3, K1.red], [n, K1.white], [g, K1.bare], [2, K2.black], [4, K2.white]]
            cables:
              K1: {kind: NM, wires: 12/3+ground, ends: [main, bench], length: 100 ft}
              K2: {kind: NM, wires: 10/2, ends: [main, whip], length: 30 ft}
            boxes:
              bench:
                box: {material: steel}
                devices: {bench-1: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}}
                joints:
                  - [K1.black, bench-1.top.hot]
                  - [K1.red, bench-1.bottom.hot]
                  - [K1.white, bench-1.neutral]
                  - [K1.bare, bench-1.ground]
              whip:
                devices: {heater: {kind: water-heater}}
                joints: [[K2.black, heater.hot-1], [K2.white, heater.hot-2]]
            """;
    private static final LoadFlow FLOW =
            LoadFlow.of(HouseFiles.parse("shared.yaml", SHARED).get());
    private static final LoadCase TWELVE_AND_TWENTY_FOUR =
            LoadCase.nothingOn().load("bench-1.top", Load.ohms(12)).load("bench-1.bottom", Load.ohms(24));

    private static Solution solve(LoadCase state) {
        return FLOW.solve(state).get();
    }

    @Test
    void sharedNeutralCarriesTheDifferenceOfTheTwoLegs() {
        Solution s = solve(TWELVE_AND_TWENTY_FOUR.ideal());
        assertThat(s.amperes("K1.black").re()).isCloseTo(10, within(1e-3));
        assertThat(s.amperes("K1.red").re()).isCloseTo(-5, within(1e-3));
        assertThat(s.amperes("K1.white").re()).isCloseTo(-5, within(1e-3));
        assertThat(s.volts("bench-1.top.hot", "bench-1.top.neutral").magnitude())
                .isCloseTo(120, within(1e-3));
    }

    @Test
    void openNeutralDividesTheVoltageOfBothLegs() {
        Solution s = solve(TWELVE_AND_TWENTY_FOUR.ideal().fault(new Fault.Open("bench:K1.white")));
        assertThat(s.volts("bench-1.top.hot", "bench-1.top.neutral").magnitude())
                .isCloseTo(80, within(1e-3));
        assertThat(s.volts("bench-1.bottom.hot", "bench-1.bottom.neutral").magnitude())
                .isCloseTo(160, within(1e-3));
        assertThat(s.amperes("K1.white").magnitude()).isZero();
    }

    @Test
    void looseNeutralLiftsTheLighterLoadedLeg() {
        LoadCase wired = TWELVE_AND_TWENTY_FOUR
                .ideal()
                .ohms("K1.black", 0.193)
                .ohms("K1.red", 0.193)
                .ohms("K1.white", 0.193);
        assertThat(solve(wired).amperes("K1.white").magnitude()).isCloseTo(4.7681, within(1e-3));
        Solution s = solve(wired.fault(new Fault.Loose("K1.white@2", 2)));
        assertThat(s.volts("bench-1.top.hot", "bench-1.top.neutral").magnitude())
                .isCloseTo(109.8079, within(1e-3));
        assertThat(s.volts("bench-1.bottom.hot", "bench-1.bottom.neutral").magnitude())
                .isCloseTo(127.4015, within(1e-3));
        assertThat(s.watts("K1.white@2")).isCloseTo(29.5, within(0.05));
    }

    @Test
    void neutralBehindAnOpenNeutralAndAnOpenBreakerFloats() {
        Solution s = solve(LoadCase.nothingOn().open("main.1").open("main.3").fault(new Fault.Open("K1.white@1")));
        assertThat(s.volts("bench-1.top.hot", "main.n").floats()).isTrue();
        assertThat(s.floats("bench-1.top.neutral")).isTrue();
        assertThat(s.isFed("bench-1.top.neutral")).isFalse();
    }

    @Test
    void wireOfTwelveGaugeAtSeventyFiveDegreesHasItsTableOhms() {
        Solution s = solve(TWELVE_AND_TWENTY_FOUR);
        int k1 = FLOW.circuit().findBranch("K1.black");
        assertThat(s.impedance(k1).orElseThrow().re()).isCloseTo(0.193, within(1e-6));
    }

    @Test
    void loadOfConstantPowerTakesItsWattsAtASaggingVoltage() {
        Solution s = solve(LoadCase.nothingOn().load("bench-1.top", Load.power(1500, 0.8)));
        Complex volts = s.volts("bench-1.top.hot", "bench-1.top.neutral").known();
        Complex power = volts.times(s.amperes("bench-1.top").conjugate());
        assertThat(s.settled()).isTrue();
        assertThat(volts.magnitude()).isLessThan(116);
        assertThat(power.re()).isCloseTo(1500, within(1e-6));
        assertThat(power.im()).isCloseTo(1125, within(1e-6));
        assertThat(s.amperes("main.1").magnitude()).isCloseTo(1875 / volts.magnitude(), within(1e-6));
    }

    @Test
    void loadOfConstantCurrentTakesItsAmperes() {
        Solution s = solve(LoadCase.nothingOn().load("bench-1.top", Load.amperes(12, 0.9)));
        assertThat(s.amperes("K1.black").magnitude()).isCloseTo(12, within(1e-6));
    }

    @Test
    void loadsOfConstantPowerInSeriesBehindAnOpenNeutralComeToRestOrAreSaidNotTo() {
        Solution s = solve(LoadCase.nothingOn()
                .load("bench-1.top", Load.power(1200, 1))
                .load("bench-1.bottom", Load.power(100, 1))
                .fault(new Fault.Open("K1.white")));
        assertThat(s.settled()).isTrue();
        assertThat(s.volts("bench-1.top.hot", "bench-1.bottom.hot").magnitude()).isBetween(230.0, 240.0);
    }

    @Test
    void everyNameThatMeansNothingIsTold() {
        assertThat(FLOW.solve(LoadCase.typical()
                                .open("main.9")
                                .load("bench-2", Load.OFF)
                                .fault(new Fault.Open("K9.black")))
                        .problems())
                .hasSize(3);
    }
}
