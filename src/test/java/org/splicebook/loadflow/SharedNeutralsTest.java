package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.record.Wire;

/** Shared neutrals, worked by hand elsewhere: whole, open and loose, on two legs, on one leg, on three, and at the service. */
class SharedNeutralsTest {
    private static final double CLOSE = 1e-3;
    private static final LoadCase IDEAL = LoadCase.typical().ideal();

    private static Solution solve(String house, LoadCase state) {
        return Houses.flow(house).solve(state).get();
    }

    private static LoadCase ohms(LoadCase state, double a, double b) {
        return state.load("a", Load.ohms(a)).load("b", Load.ohms(b));
    }

    private static void amperes(Solution s, String branch, double want) {
        assertThat(s.amperes(branch).magnitude()).as(branch).isCloseTo(want, offset(CLOSE));
    }

    private static void across(Solution s, String load, double want) {
        assertThat(s.volts(load + ".hot", load + ".neutral").magnitude())
                .as(load)
                .isCloseTo(want, offset(CLOSE));
    }

    private static void toGround(Solution s, String node, double want) {
        assertThat(s.volts(node, "service.star").magnitude()).as(node).isCloseTo(want, offset(CLOSE));
    }

    private static final Fault OPEN_NEUTRAL = new Fault.Open("K1.white@2");

    @Nested
    class OnTwoLegs {
        @Test
        void neutralCarriesTheDifference() { // MW1
            Solution s = solve("multiwire", IDEAL);
            amperes(s, "K1.black", 10);
            amperes(s, "K1.red", 5);
            amperes(s, "K1.white", 5);
            across(s, "a", 120);
            across(s, "b", 120);
        }

        @Test
        void openNeutralPutsALoadOnTooManyVolts() { // MW2
            Solution s = solve("multiwire", IDEAL.fault(OPEN_NEUTRAL));
            amperes(s, "K1.black", 6.6667);
            amperes(s, "K1.red", 6.6667);
            amperes(s, "K1.white", 0);
            across(s, "a", 80);
            across(s, "b", 160);
            assertThat(s.watts("a")).isCloseTo(533.333, offset(CLOSE));
            assertThat(s.watts("b")).isCloseTo(1066.667, offset(CLOSE));
        }

        @Test
        void openNeutralBurnsATelevisionBesideAHeater() { // MW3
            Solution s = solve("multiwire", ohms(IDEAL, 9.6, 144).fault(OPEN_NEUTRAL));
            amperes(s, "a", 1.5625);
            amperes(s, "b", 1.5625);
            across(s, "a", 15);
            across(s, "b", 225);
            assertThat(s.watts("a")).isCloseTo(23.4375, offset(CLOSE));
            assertThat(s.watts("b")).isCloseTo(351.5625, offset(CLOSE));
        }

        @Test
        void openNeutralOfEqualLoadsDoesNothingUntilOneIsSwitched() { // MW6
            LoadCase equal = ohms(IDEAL, 12, 12);
            amperes(solve("multiwire", equal), "K1.white", 0);
            Solution open = solve("multiwire", equal.fault(OPEN_NEUTRAL));
            across(open, "a", 120);
            across(open, "b", 120);
        }

        @Test
        void openNeutralWithOneLoadMakesTheWhiteLive() { // MW7
            Solution s = solve("multiwire", IDEAL.load("b", Load.OFF).fault(OPEN_NEUTRAL));
            amperes(s, "a", 0);
            across(s, "a", 0);
            toGround(s, "a.neutral", 120);
        }

        @Test
        void breakerThatIsOffIsLiveThroughTheOtherLegsLoad() { // MW8
            Solution s = solve("multiwire", IDEAL.open("main.1").fault(OPEN_NEUTRAL));
            toGround(s, "a.neutral", 120);
            toGround(s, "a.hot", 120);
            toGround(s, "main.1", 120);
            across(s, "a", 0);
        }

        @ParameterizedTest
        @CsvSource({"12, 24", "9.6, 144", "1, 1000", "33, 7", "240, 240"})
        void openNeutralDividesTheVoltsAsTheResistances(double a, double b) { // MW9
            Solution s = solve("multiwire", ohms(IDEAL, a, b).fault(OPEN_NEUTRAL));
            across(s, "a", 240 * a / (a + b));
            across(s, "b", 240 * b / (a + b));
        }
    }

    @Nested
    class OnOneLeg {
        @Test
        void neutralCarriesTheSum() { // MW4
            Solution s = solve("one-leg", IDEAL);
            amperes(s, "K1.black", 10);
            amperes(s, "K1.red", 5);
            amperes(s, "K1.white", 15);
        }

        @Test
        void neutralIsHeatedFourfoldAndNoBreakerSeesIt() { // MW5
            LoadCase both = ohms(IDEAL, 7.5, 7.5);
            Solution s = solve("one-leg", both);
            amperes(s, "K1.white", 32);
            amperes(s, "main.1", 16);
            amperes(s, "main.2", 16);
            LoadCase warm = both.ohms("K1.white", 0.001);
            double alone = solve("one-leg", warm.load("b", Load.OFF)).watts("K1.white");
            assertThat(solve("one-leg", warm).watts("K1.white") / alone).isCloseTo(4, offset(2e-3));
        }
    }

    @Nested
    class OnAWye {
        private LoadCase three(double a, double b, double c) {
            return ohms(IDEAL, a, b).load("c", c == 0 ? Load.OFF : Load.ohms(c));
        }

        private void neutral(double a, double b, double c, double amperes) {
            amperes(solve("wye", three(a, b, c)), "K1.white", amperes);
        }

        @Test
        void twoLegsCancelNothing() {
            neutral(12, 12, 0, 10); // WY1
            neutral(12, 20, 0, 8.7178); // WY2
        }

        @Test
        void threeEqualLegsCancel() {
            neutral(12, 12, 12, 0); // WY3
            neutral(12, 20, 30, 5.2915); // WY4
        }

        @Test
        void openNeutralOfTwoLegsPutsThemInSeriesAcross208() { // WY5
            Solution s = solve("wye", three(12, 24, 0).fault(OPEN_NEUTRAL));
            amperes(s, "a", 5.7735);
            across(s, "a", 69.2820);
            across(s, "b", 138.5641);
            toGround(s, "a.neutral", 69.2820);
        }

        @Test
        void openNeutralOfThreeLegsShiftsTheStarPoint() {
            Solution s = solve("wye", three(12, 24, 24).fault(OPEN_NEUTRAL)); // WY6
            across(s, "a", 90);
            across(s, "b", 137.4773);
            across(s, "c", 137.4773);
            toGround(s, "a.neutral", 30);
            Solution t = solve("wye", three(12, 24, 48).fault(OPEN_NEUTRAL)); // WY7
            across(t, "a", 78.5584);
            across(t, "b", 136.0672);
            across(t, "c", 157.1169);
            toGround(t, "a.neutral", 45.3557);
        }
    }

    @Nested
    class WithRealWire {
        private final double hundredFeet =
                Conductor.of("12", Wire.Material.COPPER).ohms(30.48, 75);
        private final LoadCase real =
                IDEAL.ohms("K1.black", hundredFeet).ohms("K1.red", hundredFeet).ohms("K1.white", hundredFeet);

        @Test
        void hundredFeetAreAFifthOfAnOhm() {
            assertThat(hundredFeet).isCloseTo(0.193, offset(1e-9));
        }

        @Test
        void neutralRisesAboveGround() { // RW1
            Solution s = solve("multiwire", real);
            amperes(s, "K1.black", 9.7662);
            amperes(s, "K1.red", 4.9981);
            amperes(s, "K1.white", 4.7681);
            across(s, "a", 117.1949);
            across(s, "b", 119.9556);
            toGround(s, "a.neutral", 0.9202);
        }

        @Test
        void oneLoadAloneDropsVoltsBothWays() { // RW2
            Solution s = solve("multiwire", real.load("b", Load.OFF));
            amperes(s, "K1.black", 9.6884);
            across(s, "a", 116.2603);
            toGround(s, "a.neutral", 1.8699);
        }

        @Test
        void equalLoadsLeaveTheNeutralIdle() { // RW3
            Solution s = solve("multiwire", ohms(real, 12, 12));
            amperes(s, "K1.black", 9.8417);
            amperes(s, "K1.white", 0);
            across(s, "a", 118.1005);
            across(s, "b", 118.1005);
        }

        @Test
        void oneLegDropsTwiceInTheNeutral() { // RW4
            Solution s = solve("one-leg", ohms(real, 12, 12));
            amperes(s, "K1.black", 9.5397);
            amperes(s, "K1.white", 19.0794);
            across(s, "a", 114.4765);
            toGround(s, "a.neutral", 3.6823);
        }

        @Test
        void looseNeutralLiftsTheLighterLeg() { // RW5
            Solution s = solve("multiwire", real.fault(new Fault.Loose("K1.white@2", 2)));
            amperes(s, "K1.black", 9.1507);
            amperes(s, "K1.red", 5.3084);
            amperes(s, "K1.white", 3.8423);
            across(s, "a", 109.8079);
            across(s, "b", 127.4015);
            assertThat(s.watts("K1.white@2")).isCloseTo(29.5, offset(0.05));
        }
    }

    @Nested
    class AtTheService {
        private static final String HOUSE = "unbalanced";

        @Test
        void soundNeutralCarriesTheDifference() { // SN1
            Solution s = solve(HOUSE, IDEAL);
            across(s, "a", 120);
            across(s, "b", 120);
            amperes(s, "service.n", 30);
        }

        @Test
        void looseServiceNeutralGlows() {
            Solution s = solve(HOUSE, IDEAL.fault(new Fault.Loose("service.n", 0.05))); // SN2
            across(s, "a", 118.5306);
            across(s, "b", 121.4694);
            amperes(s, "service.n", 29.3878);
            assertThat(s.watts("service.n")).isCloseTo(43.18, offset(0.005));
            Solution t = solve(HOUSE, IDEAL.fault(new Fault.Loose("service.n", 0.5))); // SN3
            across(t, "a", 107.5862);
            across(t, "b", 132.4138);
            amperes(t, "service.n", 24.8276);
            assertThat(t.watts("service.n")).isCloseTo(308.2, offset(0.05));
        }

        @Test
        void groundRodDoesNotMendAnOpenServiceNeutral() { // SN4
            Solution s = solve(HOUSE, IDEAL.electrode("main", 25).fault(new Fault.Open("service.n")));
            across(s, "a", 54.3066);
            across(s, "b", 185.6934);
            amperes(s, "main.electrode", 2.6277);
            toGround(s, "main.n", 65.6934);
            toGround(s, "main.box", 65.6934);
        }

        @Test
        void openServiceNeutralWithoutEarthLiftsAllGroundedMetal() { // SN5
            Solution s = solve(HOUSE, IDEAL.fault(new Fault.Open("service.n")));
            across(s, "a", 48);
            across(s, "b", 192);
            toGround(s, "main.n", 72);
            toGround(s, "main.box", 72);
        }
    }
}
