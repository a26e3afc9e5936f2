package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What ground-fault units see where neutrals are shared, tied or on ground, worked by hand elsewhere. */
class GroundFaultsTest {
    private static final double CLOSE = 1e-3;
    private static final LoadCase IDEAL = LoadCase.typical().ideal();

    private static Solution solve(String house, LoadCase state) {
        return Houses.flow(house).solve(state).get();
    }

    private static LoadCase amperes(double a, double b) {
        return IDEAL.load("a", Load.amperes(a, 1)).load("b", Load.amperes(b, 1));
    }

    private static void residual(Solution s, String device, double want) {
        assertThat(s.residual(device)).as(device).isCloseTo(want, offset(CLOSE));
    }

    private static boolean trips(Solution s, String device) {
        return TripCurves.residual(s.residual(device)).must();
    }

    private static boolean holds(Solution s, String device) {
        return !TripCurves.residual(s.residual(device)).may();
    }

    @ParameterizedTest
    @CsvSource({"5, 0", "0, 5", "5, 5", "16, 3"})
    void unitWithALoadSideOfItsOwnHolds(double a, double b) { // GF1
        Solution s = solve("ground-fault-beside-multiwire", amperes(a, b));
        residual(s, "gf", 0);
        assertThat(holds(s, "gf")).isTrue();
    }

    @Test
    void otherLegsLoadTripsTheUnitThatCarriesItsNeutral() { // GF2
        Solution s = solve("ground-fault-ahead-of-shared-neutral", amperes(0, 5));
        residual(s, "gf", 5);
        assertThat(trips(s, "gf")).isTrue();
        assertThat(trips(solve("ground-fault-ahead-of-shared-neutral", amperes(5, 0.007)), "gf"))
                .isTrue();
        assertThat(holds(solve("ground-fault-ahead-of-shared-neutral", amperes(5, 0)), "gf"))
                .isTrue();
    }

    private static LoadCase tied(double a, double b) {
        return amperes(a, b).ohms("K3.white", 0.30).ohms("K4.white", 0.20);
    }

    @Test
    void tiedNeutralsShareACurrentThatOneHotBrought() {
        String house = "ground-fault-neutrals-tied";
        Solution own = solve(house, tied(5, 0)); // GF3
        assertThat(own.amperes("K3.white").magnitude()).isCloseTo(2, offset(CLOSE));
        residual(own, "gf-1", 3);
        Solution other = solve(house, tied(0, 5)); // GF4
        residual(other, "gf-1", 2);
        Solution both = solve(house, tied(5, 5)); // GF5
        residual(both, "gf-1", 5);
        assertThat(trips(own, "gf-1") && trips(other, "gf-1") && trips(both, "gf-1"))
                .isTrue();
    }

    @Test
    void tiedNeutralsOfOneLegTripToo() { // GF6
        String oneLeg = Houses.text("ground-fault-neutrals-tied").replace("[3, K2.black]", "[2, K2.black]");
        Solution s = LoadFlow.of(Houses.read(oneLeg)).solve(tied(5, 5)).get();
        assertThat(s.amperes("K3.white").magnitude()).isCloseTo(4, offset(CLOSE));
        assertThat(s.amperes("K4.white").magnitude()).isCloseTo(6, offset(CLOSE));
        residual(s, "gf-1", 1);
        assertThat(trips(s, "gf-1")).isTrue();
    }

    private static LoadCase onGround(double amperes, double neutral, double ground) {
        return IDEAL.load("a", Load.amperes(amperes, 1))
                .ohms("K1.white", 0)
                .ohms("K2.white", neutral)
                .ohms("K2.bare", ground);
    }

    @Test
    void neutralOnGroundSplitsTheReturn() {
        String house = "ground-fault-neutral-on-ground";
        Solution half = solve(house, onGround(0.1, 0.2, 0.2)); // GF7
        residual(half, "gf", 0.05);
        assertThat(trips(half, "gf")).isTrue();
        assertThat(trips(solve(house, onGround(0.01201, 0.2, 0.2)), "gf")).isTrue();
        assertThat(trips(solve(house, onGround(0.0119, 0.2, 0.2)), "gf")).isFalse();
        residual(solve(house, onGround(5, 0.2, 0.5)), "gf", 1.4286); // GF8
    }

    @Test
    void twoPoleUnitAroundAllThreeWiresHolds() { // GF9
        Solution s = solve("ground-fault-two-pole-breaker", IDEAL);
        assertThat(s.amperes("main.1").magnitude()).isCloseTo(10, offset(CLOSE));
        assertThat(s.amperes("main.3").magnitude()).isCloseTo(5, offset(CLOSE));
        residual(s, "main.1+3", 0);
    }

    @Test
    void neutralOnOneOfTwoSingleUnitsTripsBoth() { // GF10
        Solution s = solve("ground-fault-two-single-breakers", IDEAL.load("b", Load.OFF));
        residual(s, "main.1", 1);
        residual(s, "main.3", 1);
        assertThat(trips(s, "main.1") && trips(s, "main.3")).isTrue();
    }

    @Test
    void leaksFromUnlikeLegsHideEachOther() { // GF11
        String house = "ground-fault-two-pole-breaker";
        Fault a = Fault.leak("a.hot", "a.ground", 0.003, 120);
        Fault b = Fault.leak("b.hot", "b.ground", 0.003, 120);
        assertThat(solve(house, IDEAL.fault(a).fault(b)).residual("main.1+3")).isCloseTo(0, offset(1e-6));
        assertThat(solve(house, IDEAL.fault(a)).residual("main.1+3")).isCloseTo(0.003, offset(1e-6));
        Solution six = solve(house, IDEAL.fault(Fault.leak("a.hot", "a.ground", 0.0061, 120)));
        assertThat(trips(six, "main.1+3")).isTrue();
    }
}
