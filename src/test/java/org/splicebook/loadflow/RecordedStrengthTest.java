package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

/** What the house file says of sources, electrodes and measured wires is what is computed with. */
class RecordedStrengthTest {
    private static final String HOUSE = """
            splicebook: 1
            house: measured
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources:
              service:
                system: split-phase 120/240
                bond: main
                volts: 121 V
                transformer: {rating: 25 kVA, percent: 1.6}
                drop: {length: 50 ft, size: 4/0, material: aluminium}
            panels:
              main:
                supply: service
                electrode: 25 ohm
                breakers: {1: {rating: 20 A}, 3: {rating: 20 A}}
                joints: [[1, K1.black], [3, K1.red], [n, K1.white]]
            cables:
              K1:
                kind: NM
                wires: {black: {colour: black, ohms: 0.193 ohm}, red: {colour: red, ohms: 0.193 ohm}, white: {colour: white, ohms: 0.193}}
                ends: [main, bench]
            boxes:
              bench:
                devices: {bench-1: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}}
                joints: [[K1.black, bench-1.top.hot], [K1.red, bench-1.bottom.hot], [K1.white, bench-1.neutral]]
            sightings:
              - {id: s1, date: 2026-03-14, volts: 209, between: [main.1, main.3]}
            """;
    private static final LoadFlow FLOW =
            LoadFlow.of(HouseFiles.parse("h", HOUSE).get());

    private static Solution solve(LoadCase c) {
        return FLOW.solve(c).get();
    }

    @Test
    void measuredOhmsHoldInTheIdealCaseToo() {
        Solution s = solve(
                LoadCase.nothingOn().ideal().load("bench-1.top", Load.ohms(12)).load("bench-1.bottom", Load.ohms(24)));
        assertThat(s.amperes("K1.black").magnitude()).isCloseTo(9.7662, within(1e-3));
        assertThat(s.amperes("K1.white").magnitude()).isCloseTo(4.7681, within(1e-3));
    }

    @Test
    void boltedFaultAtThePanelIsThatOfTransformerAndDrop() {
        LoadCase c = LoadCase.nothingOn().under(new Physics(60.0, 75, false, false));
        assertThat(solve(c.fault(Fault.bolted("service.l1", "service.l2")))
                        .amperes("service.l1")
                        .magnitude())
                .isCloseTo(5121 * 121 / 120.0, within(1.0));
        assertThat(solve(c.fault(Fault.bolted("service.l1", "service.n")))
                        .amperes("service.l1")
                        .magnitude())
                .isCloseTo(5384 * 121 / 120.0, within(1.0));
    }

    @Test
    void openServiceNeutralSendsItsCurrentIntoTheElectrode() {
        Solution s = solve(LoadCase.nothingOn()
                .ideal()
                .ohms("K1.black", 0)
                .ohms("K1.red", 0)
                .ohms("K1.white", 0)
                .source("service", SourceModel.IDEAL)
                .load("bench-1.top", Load.ohms(3))
                .load("bench-1.bottom", Load.ohms(12))
                .fault(new Fault.Open("service.n")));
        assertThat(s.amperes("main.electrode").magnitude()).isCloseTo(2.6277, within(1e-3));
        assertThat(s.volts("main.n", "earth").magnitude()).isCloseTo(65.6934, within(1e-3));
        assertThat(s.at(FLOW.circuit().findLoadPoint("bench-1.top"))
                        .across()
                        .get(0)
                        .magnitude())
                .isCloseTo(54.3066, within(1e-3));
    }

    @Test
    void readingOfTwoHundredAndNineVoltsIsSaidToMeanAWyeSupply() {
        assertThat(solve(LoadCase.typical()).assumptions())
                .anySatisfy(a -> assertThat(a.said()).contains("209 V").contains("wye"));
    }

    @Test
    void whatIsRecordedIsNotAssumed() {
        assertThat(solve(LoadCase.typical()).assumptions())
                .noneSatisfy(a -> assertThat(a.said()).contains("length not recorded"))
                .noneSatisfy(a -> assertThat(a.said()).contains("impedance not"))
                .noneSatisfy(a -> assertThat(a.said()).contains("electrode"));
    }
}
