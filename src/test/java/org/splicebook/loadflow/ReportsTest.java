package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.data.Offset.offset;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.loadflow.FaultCurrent.Between;
import org.splicebook.loadflow.FaultCurrent.Outcome;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.Wire;
import org.splicebook.wiring.CrossingKind;

class ReportsTest {
    private static final LoadCase TYPICAL = LoadCase.typical();

    @Nested
    class OpenNeutrals {
        @Test
        void everySpliceOfASharedNeutralPutsTheLighterLoadOnTooManyVolts() {
            Report<OpenNeutral> r = OpenNeutral.in(Houses.flow("multiwire"), TYPICAL.ideal());
            assertThat(r.rows())
                    .extracting(OpenNeutral::connection)
                    .contains("far:K1.white", "main:K1.white", "service.n");
            assertThat(r.rows()).allSatisfy(o -> assertThat(o.before()).isCloseTo(120, offset(0.01)));
            OpenNeutral landing = r.rows().stream()
                    .filter(o -> o.connection().equals("main:K1.white"))
                    .findFirst()
                    .orElseThrow();
            assertThat(landing.loadPoint()).isEqualTo("b");
            assertThat(landing.volts()).isCloseTo(160, offset(0.01));
            assertThat(landing.tooHigh()).containsExactly("b");
            assertThat(landing.tooLow()).containsExactly("a");
        }

        @Test
        void worstComesFirst() {
            Report<OpenNeutral> r = OpenNeutral.in(Houses.flow("unbalanced"), TYPICAL.ideal());
            assertThat(r.rows().get(0).connection()).isEqualTo("service.n");
            assertThat(r.rows().get(0).volts()).isCloseTo(192, offset(0.01));
            assertThat(r.rows())
                    .extracting(o -> o.volts() / o.nominal())
                    .isSortedAccordingTo((a, b) -> Double.compare(b, a));
        }

        @Test
        void neutralOfOneLoadOnlyTakesThatLoad() {
            Report<OpenNeutral> r = OpenNeutral.in(Houses.flow("unbalanced"), TYPICAL.ideal());
            assertThat(r.rows())
                    .filteredOn(o -> o.connection().equals("left:KA.white"))
                    .singleElement()
                    .satisfies(o -> {
                        assertThat(o.tooHigh()).isEmpty();
                        assertThat(o.tooLow()).containsExactly("a");
                    });
        }
    }

    @Nested
    class WillTheUnitHold {
        @Test
        void unitWithItsOwnNeutralHolds() {
            DeviceHolds d = DeviceHolds.of(Houses.flow("ground-fault-beside-multiwire"), TYPICAL, "gf")
                    .rows()
                    .get(0);
            assertThat(d.holds()).isTrue();
            assertThat(d.shares()).isEmpty();
            assertThat(d.crossings()).isEmpty();
        }

        @Test
        void neutralOfTheOtherLegIsNamedAsTheCause() {
            DeviceHolds d = DeviceHolds.of(Houses.flow("ground-fault-ahead-of-shared-neutral"), TYPICAL, "gf")
                    .rows()
                    .get(0);
            assertThat(d.holds()).isFalse();
            assertThat(d.shares()).extracting(DeviceHolds.Share::loadPoint).containsExactly("b");
            assertThat(d.shares().get(0).amperes()).isCloseTo(5, offset(0.1));
            assertThat(d.crossings()).extracting(c -> c.kind()).contains(CrossingKind.ACROSS_PROTECTION);
        }

        @Test
        void loadsThatHideEachOtherAreTakenApart() {
            LoadCase both = TYPICAL.ohms("K3.white", 0.3).ohms("K4.white", 0.3);
            DeviceHolds d = DeviceHolds.of(Houses.flow("ground-fault-neutrals-tied"), both, "gf-1")
                    .rows()
                    .get(0);
            assertThat(d.shares()).hasSize(2);
            assertThat(d.worst()).isGreaterThanOrEqualTo(d.allOn());
            assertThat(d.worst()).isGreaterThanOrEqualTo(d.shares().get(0).amperes());
        }

        @Test
        void unknownUnitIsToldByName() {
            assertThatThrownBy(() -> DeviceHolds.of(Houses.flow("multiwire"), TYPICAL, "gf"))
                    .isInstanceOf(ProblemException.class)
                    .hasMessageContaining("gf");
        }
    }

    @Nested
    class WillTheBreakerHold {
        private final LoadFlow kitchen = Houses.flow("kitchen");
        private final LoadCase busy =
                LoadCase.nothingOn().load("left.top", Load.watts(1500)).load("left.bottom", Load.watts(1400));

        @Test
        void oneKettleHolds() {
            BreakerHolds b = BreakerHolds.of(kitchen, LoadCase.nothingOn().load("left.top", Load.watts(1500)), "main.1")
                    .rows()
                    .get(0);
            assertThat(b.holds()).isTrue();
            assertThat(b.poles().get(0).tooMuchForLong()).isFalse();
            assertThat(b.instead()).isEmpty();
        }

        @Test
        void kettleAndToasterTripAndAnotherCircuitWouldHold() {
            BreakerHolds b = BreakerHolds.of(kitchen, busy, "main.1").rows().get(0);
            assertThat(b.holds()).isFalse();
            assertThat(b.poles().get(0).amperes()).isBetween(22.0, 24.2);
            assertThat(b.instead()).extracting(BreakerHolds.Instead::to).containsOnly("right.top");
            assertThat(b.instead()).extracting(BreakerHolds.Instead::load).containsExactly("left.bottom", "left.top");
            assertThat(b.instead()).extracting(BreakerHolds.Instead::pole).containsOnly("main.3");
        }

        @Test
        void circuitThatIsFullIsNotOffered() {
            LoadCase full = busy.load("right.bottom", Load.watts(1800));
            assertThat(BreakerHolds.of(kitchen, full, "main.1").rows().get(0).instead())
                    .isEmpty();
        }

        @Test
        void breakerThatIsNotThereIsToldByName() {
            assertThatThrownBy(() -> BreakerHolds.of(kitchen, busy, "main.99"))
                    .isInstanceOf(ProblemException.class)
                    .hasMessageContaining("main.99");
        }
    }

    @Nested
    class HowFar {
        private static double feet(String size, Wire.Material m, double volts, double amperes) {
            LoadCase at75 = TYPICAL.under(new Physics(60.0, 75, false, false));
            return RunLength.of(Houses.flow("multiwire"), at75, new RunLength.Run("", volts, amperes, 1, 0.03))
                    .rows()
                    .stream()
                    .filter(r -> r.size().equals(size) && r.material() == m)
                    .findFirst()
                    .orElseThrow()
                    .feet();
        }

        @ParameterizedTest
        @CsvSource({
            "14, COPPER, 120, 12, 48.9", "12, COPPER, 120, 16, 58.3", "10, COPPER, 240, 24, 124.0",
            "6, COPPER, 240, 40, 183.3", "6, COPPER, 240, 48, 152.7", "2, ALUMINIUM, 240, 80, 141.1",
            "1, ALUMINIUM, 240, 80, 177.9", "4/0, ALUMINIUM, 240, 150, 240.0"
        })
        void threePercentReachesAsFarAsTheTableSays(
                String size, Wire.Material material, double volts, double amperes, double feet) {
            assertThat(feet(size, material, volts, amperes)).isCloseTo(feet, offset(0.0501));
        }

        @Test
        void runThatGoesOnFromALoadPointHasLessLeft() {
            LoadFlow flow = Houses.flow("multiwire");
            List<RunLength> panel = RunLength.of(flow, TYPICAL, new RunLength.Run("", 120, 10, 1, 0.05))
                    .rows();
            List<RunLength> far = RunLength.of(
                            flow, TYPICAL.load("b", Load.OFF), new RunLength.Run("a", 120, 10, 1, 0.05))
                    .rows();
            RunLength whole = panel.get(2);
            RunLength rest = far.get(2);
            assertThat(rest.size()).isEqualTo(whole.size());
            assertThat(rest.metres()).isLessThan(whole.metres());
            RunLength twelve = panel.stream()
                    .filter(r -> r.size().equals("12") && r.material() == Wire.Material.COPPER)
                    .findFirst()
                    .orElseThrow();
            RunLength left = far.stream()
                    .filter(r -> r.size().equals("12") && r.material() == Wire.Material.COPPER)
                    .findFirst()
                    .orElseThrow();
            // The hundred feet there are of the same wire; connections and the breaker take a few feet more.
            assertThat(twelve.feet() - left.feet()).isBetween(100.0, 112.0);
        }

        @Test
        void thinWireIsSaidNotToCarryTheLoad() {
            assertThat(RunLength.of(Houses.flow("multiwire"), TYPICAL, new RunLength.Run("", 240, 40, 1, 0.03))
                            .rows())
                    .filteredOn(RunLength::carries)
                    .extracting(RunLength::size)
                    .doesNotContain("14", "12", "10")
                    .contains("8", "6");
        }
    }

    @Nested
    class Faults {
        @Test
        void shortOfABranchClearsAtOnce() {
            Report<FaultCurrent> r = FaultCurrent.atLoadPoints(Houses.flow("ground-fault-two-pole-breaker"), TYPICAL);
            assertThat(r.rows()).hasSize(4).allSatisfy(f -> {
                assertThat(f.outcome()).isEqualTo(Outcome.AT_ONCE);
                assertThat(f.clears().unit()).isEqualTo("main.1+3");
            });
        }

        @Test
        void metalWithoutAGroundStaysLive() {
            Report<FaultCurrent> r = FaultCurrent.atLoadPoints(Houses.flow("multiwire"), TYPICAL);
            assertThat(r.rows())
                    .filteredOn(f -> f.between() == Between.HOT_AND_GROUND)
                    .hasSize(2)
                    .allSatisfy(f -> {
                        assertThat(f.outcome()).isEqualTo(Outcome.NO_WAY_BACK);
                        assertThat(f.amperes()).isNull();
                    });
            assertThat(r.rows().get(0).outcome()).isEqualTo(Outcome.NO_WAY_BACK);
        }

        @Test
        void longThinRunMayClearByHeatOnly() {
            String far = Houses.text("multiwire")
                    .replace("12/3", "14/3")
                    .replace("100 ft", "400 ft")
                    .replace("20 A", "15 A");
            Report<FaultCurrent> r = FaultCurrent.atLoadPoints(LoadFlow.of(Houses.read(far)), TYPICAL);
            assertThat(r.rows())
                    .filteredOn(f -> f.between() == Between.HOT_AND_RETURN)
                    .allSatisfy(f -> assertThat(f.outcome()).isEqualTo(Outcome.BY_HEAT));
        }

        @Test
        void faultAtThePanelIsWhatTheTransformerAndItsDropLetThrough() {
            LoadCase behind = TYPICAL.ideal()
                    .source("service", SourceModel.transformer(25, 1.6, 240).withDrop(Complex.of(0.005)));
            Report<FaultCurrent> r = FaultCurrent.atPanels(Houses.flow("multiwire"), behind);
            assertThat(r.rows())
                    .extracting(FaultCurrent::between)
                    .containsExactly(Between.HOT_AND_RETURN, Between.TWO_LEGS);
            assertThat(r.rows().get(0).amperes()).isCloseTo(5384, offset(20.0));
            assertThat(r.rows().get(1).amperes()).isCloseTo(5121, offset(20.0));
        }
    }

    @Nested
    class WhichNeutralIsLoose {
        private final LoadFlow flow = Houses.flow("chain");
        private final LoadCase first = LoadCase.nothingOn().load("r-1.top", Load.watts(1500));
        private final LoadCase second = LoadCase.nothingOn().load("r-3.top", Load.watts(1500));

        private List<LooseNeutral.Reading> readings(Fault fault) {
            List<LooseNeutral.Reading> all = new ArrayList<>();
            for (LoadCase c : List.of(first, second)) {
                Solution s = flow.solve(c.fault(fault)).get();
                for (String p : List.of("r-1", "r-2", "r-3")) {
                    double volts = s.volts(p + ".top.hot", p + ".top.neutral").magnitude();
                    all.add(new LooseNeutral.Reading(
                            c, p + ".top.hot", p + ".top.neutral", Math.round(volts * 10) / 10.0));
                }
            }
            return all;
        }

        @ParameterizedTest
        @CsvSource({"b-1:K1.white, 1.5", "b-2:K2.white, 0.7", "b-3:K3.white, 4"})
        void connectionIsFoundWithItsOhms(String connection, double ohms) {
            List<LooseNeutral> rows = LooseNeutral.fit(flow, readings(new Fault.Loose(connection, ohms)), 0.2)
                    .rows();
            assertThat(rows.get(0).fits())
                    .as("a sound house does not explain it")
                    .isFalse();
            LooseNeutral best = rows.get(1);
            assertThat(best.fits()).isTrue();
            assertThat(best.ohms()).isCloseTo(ohms, offset(0.1));
            assertThat(rows.stream().filter(LooseNeutral::fits).map(LooseNeutral::connection))
                    .contains(connection);
        }

        @Test
        void connectionsThatTheReadingsTellApartAreNotNamed() {
            List<LooseNeutral> rows = LooseNeutral.fit(flow, readings(new Fault.Loose("b-2:K2.white", 0.7)), 0.2)
                    .rows();
            assertThat(rows.stream().filter(LooseNeutral::fits).map(LooseNeutral::connection))
                    .isSubsetOf("b-2:K2.white", "b-1:K2.white");
        }

        @Test
        void soundHouseNeedsNoLooseNeutral() {
            List<LooseNeutral> rows = LooseNeutral.fit(flow, readings(new Fault.Loose("b-1:K1.white", 0)), 0.2)
                    .rows();
            assertThat(rows.get(0).fits()).isTrue();
        }
    }

    @Test
    void everyReportSaysWhatItsFiguresHangOn() {
        LoadFlow flow = Houses.flow("multiwire");
        for (Report<?> r : List.of(
                OpenNeutral.in(flow, TYPICAL),
                BreakerHolds.of(flow, TYPICAL, "main.1"),
                FaultCurrent.atLoadPoints(flow, TYPICAL),
                FaultCurrent.atPanels(flow, TYPICAL),
                RunLength.of(flow, TYPICAL, new RunLength.Run("", 120, 15, 1, 0.03)))) {
            assertThat(r.rows()).isNotEmpty();
            String said = r.assumptions().toString();
            assertThat(said).contains("°C", "split-phase 120/240", "ohm from leg to neutral");
        }
    }
}
