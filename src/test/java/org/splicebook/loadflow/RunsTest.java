package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Voltage drop of plain runs, as tables of the trade give it: wires at 75 °C, resistance only, nothing else in the way. */
class RunsTest {
    /** A run of one cable to one appliance, the sizes and lengths to be put in. */
    private static LoadFlow run(String kind, String size, String material, double feet, int volts) {
        boolean both = volts == 240;
        return LoadFlow.of(Houses.read("""
                splicebook: 1
                house: run
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, bond: main}}
                panels:
                  main:
                    supply: service
                    breakers: {1+3: {rating: 200 A}}
                    joints: [[1, K1.black], [%s, K1.white]]
                cables:
                  K1: {kind: SER, wires: {black: {colour: black, size: %s, material: %s}, white: {colour: white, size: %s, material: %s}},
                       ends: [main, far], length: %s ft}
                boxes:
                  far:
                    devices: {a: {kind: %s}}
                    joints: [[K1.black, a.%s], [K1.white, a.%s]]
                """.formatted(
                        both ? "3" : "n",
                        size,
                        material,
                        size,
                        material,
                        feet,
                        kind,
                        both ? "hot-1" : "hot",
                        both ? "hot-2" : "neutral")));
    }

    /** Wires as the tables have them, and no other resistance. */
    private static LoadCase wiresOnly(LoadFlow flow, LoadCase state) {
        LoadCase c = state.ideal();
        for (Branch b : flow.circuit().branches()) {
            if (b.kind() == Branch.Kind.WIRE) {
                c = c.ohms(b.name(), b.ohms());
            }
        }
        return c;
    }

    @ParameterizedTest(name = "{0} {1}, {2} A, {3} ft, {4} V")
    @CsvSource({
        "14, copper, 12, 50, 120, 3.684, 3.07, 48.9",
        "14, copper, 12, 100, 120, 7.368, 6.14, 48.9",
        "12, copper, 16, 50, 120, 3.088, 2.57, 58.3",
        "12, copper, 16, 75, 120, 4.632, 3.86, 58.3",
        "12, copper, 16, 100, 120, 6.176, 5.15, 58.3",
        "10, copper, 24, 100, 240, 5.808, 2.42, 124.0",
        "6, copper, 40, 100, 240, 3.928, 1.64, 183.3",
        "6, copper, 48, 60, 240, 2.828, 1.18, 152.7",
        "2, aluminium, 80, 150, 240, 7.656, 3.19, 141.1",
        "1, aluminium, 80, 150, 240, 6.072, 2.53, 177.9",
        "4/0, aluminium, 150, 100, 240, 3.000, 1.25, 240.0",
    })
    void dropIsAsTheTableSays(
            String size,
            String material,
            double amperes,
            double feet,
            int volts,
            double drop,
            double percent,
            double most) {
        String kind = volts == 240 ? "heater-240" : "heater-120";
        LoadFlow flow = run(kind, size, material, feet, volts);
        LoadCase state = wiresOnly(flow, LoadCase.nothingOn().load("a", Load.amperes(amperes, 1)));
        double got = volts - across(flow, state, volts);
        assertThat(got).isCloseTo(drop, offset(1e-3));
        assertThat(100 * got / volts).isCloseTo(percent, offset(5.1e-3));
        LoadFlow longest = run(kind, size, material, most, volts);
        double atMost = volts - across(longest, wiresOnly(longest, state), volts);
        assertThat(100 * atMost / volts).as("at %s ft", most).isCloseTo(3, offset(3 * 0.06 / most + 2e-3));
    }

    private static double across(LoadFlow flow, LoadCase state, int volts) {
        boolean both = volts == 240;
        return flow.solve(state)
                .get()
                .volts(both ? "a.hot-1" : "a.hot", both ? "a.hot-2" : "a.neutral")
                .magnitude();
    }

    @Test
    void threePhasesDropRootThreeTimesOneWire() {
        LoadFlow flow = LoadFlow.of(Houses.read(Houses.text("wye").replace("wires: 12/4", "wires: 6/4")));
        Load thirty = Load.amperes(30, 1);
        LoadCase state = wiresOnly(
                flow, LoadCase.nothingOn().load("a", thirty).load("b", thirty).load("c", thirty));
        Solution s = flow.solve(state).get();
        double drop = 120 * Math.sqrt(3) - s.volts("a.hot", "b.hot").magnitude();
        assertThat(drop).isCloseTo(2.551, offset(1e-3));
        assertThat(100 * drop / 208).isCloseTo(1.23, offset(5.1e-3));
    }

    /** The rule of thumb with 12.9 (copper) or 21.2 (aluminium) ohm circular mils per foot, put in as measured ohms. */
    @ParameterizedTest
    @CsvSource({"12, copper, 16, 100, 120, 12.9, 6530, 6.322", "2, aluminium, 80, 150, 240, 21.2, 66360, 7.667"})
    void measuredOhmsComeBeforeTheTable(
            String size, String material, double amperes, double feet, int volts, double k, double area, double drop) {
        LoadFlow flow = run(volts == 240 ? "heater-240" : "heater-120", size, material, feet, volts);
        double ohms = k * feet / area;
        LoadCase state = LoadCase.nothingOn()
                .ideal()
                .load("a", Load.amperes(amperes, 1))
                .ohms("K1.black", ohms)
                .ohms("K1.white", ohms);
        assertThat(volts - across(flow, state, volts)).isCloseTo(drop, offset(1e-3));
    }

    /** A transformer of 25 kVA and 1.6 % behind 50 ft of 4/0 aluminium, resistances only. */
    private static SourceModel behind() {
        return SourceModel.transformer(25, 1.6, 240).withDrop(Complex.of(0.1 * 50 / 1000));
    }

    private static double fault(LoadFlow flow, LoadCase state, String from, String to) {
        return flow.solve(state.fault(Fault.bolted(from, to)))
                .get()
                .amperes("fault-1")
                .magnitude();
    }

    @ParameterizedTest
    @CsvSource({"25, 1.6, 6510", "50, 1.6, 13021", "37.5, 1.8, 8681", "25, 2, 5208"})
    void boltedFaultAtATransformerIsItsRatingOverItsImpedance(double kva, double percent, double amperes) {
        LoadFlow flow = Houses.flow("multiwire");
        LoadCase bare = LoadCase.nothingOn().ideal().source("service", SourceModel.transformer(kva, percent, 240));
        assertThat(fault(flow, bare, "main.line-1", "main.line-2")).isCloseTo(amperes, offset(1e-4 * amperes));
        assertThat(fault(flow, bare, "main.line-1", "main.n") / amperes).isCloseTo(1.5, offset(1e-3));
    }

    @Test
    void serviceDropTamesAFaultAtThePanel() {
        LoadFlow flow = Houses.flow("multiwire");
        LoadCase bare = LoadCase.nothingOn().ideal().source("service", behind());
        assertThat(fault(flow, bare, "main.line-1", "main.line-2")).isCloseTo(5121, offset(0.51));
        assertThat(fault(flow, bare, "main.line-1", "main.n")).isCloseTo(5384, offset(0.51));
    }

    @ParameterizedTest(name = "{0} AWG, {1} ft")
    @CsvSource({
        "14, 25, 782, 683",
        "14, 50, 391, 364",
        "14, 100, 195, 189",
        "12, 25, 1244, 1010",
        "12, 50, 622, 557",
        "12, 100, 311, 294",
        "10, 100, 496, 454",
    })
    void faultAtTheEndOfABranchIsWhatItsLoopLets(String size, double feet, double stiff, double behind) {
        LoadFlow flow = run("heater-120", size, "copper", feet, 120);
        LoadCase state = wiresOnly(flow, LoadCase.nothingOn());
        assertThat(fault(flow, state, "a.hot", "a.neutral")).isCloseTo(stiff, offset(0.51));
        assertThat(fault(flow, state.source("service", behind()), "a.hot", "a.neutral"))
                .isCloseTo(behind, offset(0.51));
    }
}
