package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Percentage.withPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.record.OvercurrentType;

class TripCurveTest {
    private static final TripCurve.Residual CLASS_A = TripCurves.groundFault().residual();
    private static final TripCurve.Overload BREAKER =
            TripCurves.of(OvercurrentType.BREAKER).overload();

    @ParameterizedTest
    @CsvSource({"0.006, 5.59", "0.020, 1.00", "0.100, 0.100", "0.264, 0.025"})
    void classAOpensByTheLongestTimeOfItsCurve(double amperes, double seconds) {
        assertThat(CLASS_A.at(amperes).latest()).isCloseTo(seconds, withPercentage(0.7));
    }

    @Test
    void classAHoldsBelowFourMilliamperes() {
        assertThat(CLASS_A.at(0.0039)).isEqualTo(TripTime.NEVER);
    }

    @Test
    void betweenFourAndSixMilliamperesNobodyCanTell() {
        TripTime t = CLASS_A.at(0.005);
        assertThat(t.may()).isTrue();
        assertThat(t.must()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"2.0, 12, 120", "3.0, 5, 40", "5.0, 1, 10", "10, 0, 0.02", "60, 0, 0.02"})
    void breakerOpensWithinItsBand(double multiple, double earliest, double latest) {
        TripTime t = BREAKER.at(multiple);
        assertThat(t.earliest()).isCloseTo(earliest, withPercentage(0.1));
        assertThat(t.latest()).isCloseTo(latest, withPercentage(0.1));
    }

    @Test
    void breakerHoldsWhatItIsRatedFor() {
        assertThat(BREAKER.at(1.0)).isEqualTo(TripTime.NEVER);
        assertThat(BREAKER.at(1.04)).isEqualTo(TripTime.NEVER);
    }

    @Test
    void breakerOpensWithinTheHourAtAThirdTooMuch() {
        assertThat(BREAKER.at(1.35).latest()).isCloseTo(3600, withPercentage(0.1));
        assertThat(BREAKER.at(1.2).must()).isFalse();
        assertThat(BREAKER.at(1.2).may()).isTrue();
    }

    @Test
    void moreCurrentNeverTakesLonger() {
        for (double m = 1; m < 20; m *= 1.01) {
            for (TripCurve.Overload c : new TripCurve.Overload[] {
                BREAKER, TripCurves.of(OvercurrentType.FUSE).overload()
            }) {
                assertThat(c.at(m * 1.01).earliest())
                        .isLessThanOrEqualTo(c.at(m).earliest());
                assertThat(c.at(m * 1.01).latest()).isLessThanOrEqualTo(c.at(m).latest());
                assertThat(c.at(m).earliest()).isLessThanOrEqualTo(c.at(m).latest());
            }
        }
    }
}
