package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.panelplan.IntervalRecord.Rule;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

/** Interval readings: what they come to, whether they may be used, and what is wrong with a file of them, line by line. */
class IntervalReaderTest {
    private static final House SAMPLE = HouseFiles.read(Path.of("sample-house")).get();

    private static String file(int days, int minutes, String unit, IntToDoubleFunction value) {
        StringBuilder s = new StringBuilder("start," + unit + "\n");
        LocalDateTime at = LocalDateTime.of(2025, 1, 1, 0, 0);
        for (int i = 0; i < days * 24 * 60 / minutes; i++) {
            s.append(at)
                    .append(',')
                    .append(String.format(Locale.ROOT, "%.3f", value.applyAsDouble(i)))
                    .append('\n');
            at = at.plusMinutes(minutes);
        }
        return s.toString();
    }

    private static IntervalRecord read(String text) {
        return IntervalReader.read("file", text).get();
    }

    @Test
    void energyAndPowerComeToTheSame() {
        IntervalRecord power = read(file(2, 15, "kW", i -> i == 77 ? 8.4 : 1));
        IntervalRecord energy = read(file(2, 15, "kWh", i -> (i == 77 ? 8.4 : 1) / 4));
        assertThat(power.peakVa()).isCloseTo(8400, within(1e-9));
        assertThat(energy.peakVa()).isCloseTo(8400, within(1e-9));
        assertThat(power.peakAt()).isEqualTo(LocalDateTime.of(2025, 1, 1, 19, 15));
        assertThat(power.most().get(19)).isCloseTo(8400, within(1e-9));
        assertThat(power.most().get(3)).isCloseTo(1000, within(1e-9));
    }

    @Test
    void thePeakIsTheGreatestOfRandomReadings() {
        for (long seed = 0; seed < 30; seed++) {
            Random r = new Random(seed);
            double[] v = r.doubles(96, 0, 12).toArray();
            double most = 0;
            for (double x : v) {
                most = Math.max(most, Math.round(x * 1000));
            }
            assertThat(read(file(1, 15, "kW", i -> v[i])).peakVa())
                    .as("seed %d", seed)
                    .isCloseTo(most, within(1e-6));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "365, 15, YEAR",
        "365, 60, YEAR",
        "364, 15, THIRTY_DAYS",
        "30, 15, THIRTY_DAYS",
        "30, 30, NEITHER",
        "29, 15, NEITHER"
    })
    void aYearOrThirtyDaysOfQuarterHoursMayBeUsed(int days, int minutes, Rule rule) {
        assertThat(read(file(days, minutes, "kW", i -> 1)).judge(SAMPLE).rule()).isEqualTo(rule);
    }

    @Test
    void thirtyDaysAreBarredByAnotherSourceAndByAGap() {
        House solar = HouseFiles.parse("house", """
                splicebook: 1
                house: sunny
                sources:
                  service: {system: split-phase 120/240}
                  roof: {kind: inverter, system: split-phase 120/240}
                """).get();
        IntervalRecord month = read(file(40, 15, "kW", i -> 1));
        assertThat(month.judge(solar).rule()).isEqualTo(Rule.NEITHER);
        assertThat(month.judge(solar).reasons()).anyMatch(r -> r.contains("roof"));
        String gap = file(40, 15, "kW", i -> 1).replaceFirst("2025-01-05T10:15,1.000\n", "");
        IntervalRecord holed = read(gap);
        assertThat(holed.missing()).isEqualTo(1);
        assertThat(holed.judge(SAMPLE).rule()).isEqualTo(Rule.NEITHER);
    }

    @Test
    void aChangeOfTheClockIsNoFault() {
        StringBuilder s = new StringBuilder("start;kWh\n");
        LocalDateTime at = LocalDateTime.of(2025, 3, 9, 0, 0);
        for (int i = 0; i < 8; i++) {
            s.append(at).append(";0.5\n");
            at = at.plusMinutes(at.getHour() == 1 && at.getMinute() == 30 ? 90 : 30);
        }
        IntervalRecord r = read(s.toString());
        assertThat(r.missing()).isZero();
        assertThat(r.notes()).anyMatch(n -> n.contains("clock"));
    }

    @Test
    void everyWrongLineIsTold() {
        Result<IntervalRecord> wrong = IntervalReader.read("meter.csv", """
                start,kW
                2025-01-01T00:00,1
                yesterday,1
                2025-01-01T00:30,=1+1
                2025-01-01T00:45
                2025-01-01T01:00,-2
                2025-13-01T01:15,1
                """);
        assertThat(wrong.problems()).extracting(p -> p.where().line()).containsExactly(3, 4, 5, 6, 7);
        assertThat(wrong.problems())
                .extracting(Problem::said)
                .first()
                .asString()
                .startsWith("meter.csv:3:1");
        assertThat(IntervalReader.read("m", "start,kW\n2025-01-01T00:00,1\n2025-01-01T00:15,1\n2025-01-01T00:15,1\n")
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.where().line()).isEqualTo(4));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "\u0000\u0001",
                "start",
                "kW,start\n",
                "start,kW\n2025-01-01T00:00,1\n",
                "start,kW\n2025-01-01T00:00,99999999999999\n2025-01-01T00:15,1e999\n",
                "start,kW\n2025-01-01T00:00,999999\n2025-01-01T00:15,1\n",
                "start,kW\n2025-01-01T00:00,1\n2025-01-08T00:00,1\n",
                "start,kW\n9999999999-01-01T00:00,1\n-999999999-01-01T00:00,1\n"
            })
    void hostileFilesEndInProblems(String text) {
        assertThat(IntervalReader.read("m", text).problems()).isNotEmpty();
    }

    @Test
    void randomTextNeverFallsOver() {
        String signs = "0123456789-:T,;.\n\"kWhstar+=Z ";
        for (long seed = 0; seed < 500; seed++) {
            Random r = new Random(seed);
            StringBuilder s = new StringBuilder(r.nextBoolean() ? "start,kW\n" : "");
            for (int i = 0; i < 200; i++) {
                s.append(signs.charAt(r.nextInt(signs.length())));
            }
            assertThat(IntervalReader.read("m", s.toString()))
                    .as("seed %d", seed)
                    .isNotNull();
        }
    }

    @Test
    void longIntervalsCountOnlyRaisedAndThirtyDaysOnlyWithTheirSeason() {
        IntervalRecord hours = read(file(365, 60, "kW", i -> 4));
        Metering bare = Metering.of(hours, SAMPLE, null, null);
        assertThat(bare.isUsable()).isTrue();
        assertThat(bare.asked()).singleElement().asString().contains("60 minutes", "raise");
        Metering raised = Metering.of(hours, SAMPLE, 1.3, null);
        assertThat(raised.asked()).isEmpty();
        assertThat(raised.va()).isCloseTo(5200, within(1e-6));
        Dwelling d = new Dwelling(1400.0, 2, 1, List.of(), 240, 100.0, List.of());
        assertThat(Demands.metered(d, bare, 2023).get(0).verdict()).isEqualTo(Demand.Verdict.TO_BE_ASKED);
        assertThat(Demands.metered(d, raised, 2023).get(0).va()).isCloseTo(6500, within(1e-6));
        IntervalRecord month = read(file(30, 15, "kW", i -> 4));
        assertThat(Metering.of(month, SAMPLE, null, null).asked())
                .singleElement()
                .asString()
                .contains("heating and cooling");
        assertThat(Metering.of(month, SAMPLE, null, 0.0).asked()).isEmpty();
        // The season is a part of the demand, so it takes the 125 % too.
        assertThat(Demands.metered(d, Metering.of(month, SAMPLE, null, 6000.0), 2023)
                        .get(0)
                        .va())
                .isCloseTo(12_500, within(1e-6));
    }
}
