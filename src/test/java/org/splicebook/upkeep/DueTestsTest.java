package org.splicebook.upkeep;

import static org.assertj.core.api.Assertions.assertThat;

import biweekly.Biweekly;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.TestResult;

class DueTestsTest {
    private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);

    static House house(String tests) {
        return HouseFiles.parse("house", """
                        splicebook: 1
                        house: quince-court-7
                        places: {bath: {name: Bath, kind: bathroom}, hall: {name: Hall, kind: hall}}
                        panels:
                          main:
                            place: hall
                            spaces: 4
                            breakers: {1: {rating: 15 A, protects: [arc-fault]}, 2: {rating: 15 A}}
                        boxes:
                          vanity: {place: bath, devices: {bath-gf: {kind: ground-fault-receptacle}}}
                          ceiling: {place: hall, devices: {alarm: {kind: smoke-alarm, since: 2017}}}
                        tests: [%s]
                        """.formatted(tests)).get();
    }

    private static Due due(House house, String subject, String kind) {
        return DueTests.of(house, TODAY, 10, true).stream()
                .filter(d -> d.subject().equals(subject) && d.kind().id().equals(kind))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void whatNobodyTestedIsDueAndNeverCountsAsTested() {
        assertThat(DueTests.of(house(""), TODAY, 10, false))
                .extracting(d -> d.subject() + " " + d.kind().id() + " " + d.state())
                .containsExactly(
                        "alarm alarm-button NEVER",
                        "bath-gf trip-button NEVER",
                        "main.1 trip-button NEVER",
                        "alarm alarm-age LATER");
        assertThat(DueTests.of(house(""), TODAY, 10, true))
                .extracting(d -> d.subject() + " " + d.kind().id())
                .contains("main.2 breaker-exercise", "main panel-thermal")
                .doesNotContain("main panel-torque");
    }

    @ParameterizedTest
    @CsvSource({
        "2026-04-02, passed, SOON, 2026-05-02",
        "2026-04-01, passed, OVERDUE, 2026-05-01",
        "2026-04-20, passed, LATER, 2026-05-20",
        "2026-04-20, failed, FAILED, 1900-01-01",
        "2026-04-20, out of reach, NEVER, 1900-01-01",
        "2026-01-31, passed, OVERDUE, 2026-02-28"
    })
    void theLastTestDecides(String date, String result, Due.State state, LocalDate on) {
        Due d = due(
                house("{id: t1, date: %s, what: trip-button, device: bath-gf, result: %s}".formatted(date, result)),
                "bath-gf",
                "trip-button");
        assertThat(d.state()).isEqualTo(state);
        assertThat(d.on()).isEqualTo(on);
    }

    @Test
    void aFailureStandsUntilATestAfterItPasses() {
        String failed = "{id: t1, date: 2026-04-20, what: trip-button, device: bath-gf, result: failed}";
        String before = "{id: t2, date: 2026-04-19, what: trip-button, device: bath-gf, result: passed}";
        String sameDay = "{id: t3, date: 2026-04-20, what: trip-button, device: bath-gf, result: passed}";
        String unsaid = "{id: t4, date: 2026-04-21, what: trip-button, device: bath-gf, result: not tried}";
        assertThat(due(house(failed + ", " + before), "bath-gf", "trip-button").state())
                .isEqualTo(Due.State.FAILED);
        assertThat(due(house(failed + ", " + unsaid), "bath-gf", "trip-button").state())
                .isEqualTo(Due.State.FAILED);
        assertThat(due(house(failed + ", " + sameDay), "bath-gf", "trip-button").state())
                .isEqualTo(Due.State.LATER);
        assertThat(DueTests.lastDone(house(before + ", " + failed), "trip-button", "bath-gf"))
                .isEmpty();
    }

    @Test
    void anAgeOfWhichOnlyTheYearIsKnownCountsFromItsFirstDay() {
        assertThat(due(house(""), "alarm", "alarm-age").on()).isEqualTo(LocalDate.of(2027, 1, 1));
    }

    /** What is recorded to be done can only make less due; a failure can only make more due. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void aTestThatPassedLastNeverMakesMoreDue(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 200; i++) {
            List<TestResult> tests = new ArrayList<>();
            for (int t = random.nextInt(4); t > 0; t--) {
                tests.add(test("t" + t, TODAY.minusDays(random.nextInt(90)), random.nextBoolean()));
            }
            House before = house("").withTests(tests);
            List<TestResult> more = new ArrayList<>(tests);
            boolean passed = random.nextBoolean();
            more.add(test("last", TODAY, passed));
            House after = house("").withTests(more);
            LocalDate was = due(before, "bath-gf", "trip-button").on();
            LocalDate is = due(after, "bath-gf", "trip-button").on();
            if (passed) {
                assertThat(is).as("seed %d, %s", seed, more).isAfterOrEqualTo(was);
            } else {
                assertThat(is).as("seed %d, %s", seed, more).isEqualTo(DueTests.LONG_PAST);
            }
        }
    }

    private static TestResult test(String id, LocalDate date, boolean passed) {
        return new TestResult(id, date.toString(), "trip-button", "bath-gf", passed ? "passed" : "failed", null, null);
    }

    @Test
    void theCalendarHasOneWholeDayForEachKindOfTestAndDay() {
        House house = house("{id: t1, date: 2026-04-20, what: trip-button, device: bath-gf, result: passed}")
                .withName("Quince Court 7, with; a name, that has\\to be escaped " + "and is long ".repeat(12));
        List<Due> due = DueTests.of(house, TODAY, 400, false);
        String text = DueCalendar.of(Map.of(house, due), TODAY);
        assertThat(text).startsWith("BEGIN:VCALENDAR\r\n").endsWith("END:VCALENDAR\r\n");
        assertThat(text.lines().toList()).allMatch(l -> l.getBytes(StandardCharsets.UTF_8).length <= 75);
        ICalendar read = Biweekly.parse(text).first();
        assertThat(read.getEvents())
                .extracting(e -> e.getUid().getValue())
                .containsExactlyInAnyOrder(
                        "quince-court-7-trip-button-2026-05-01@splicebook",
                        "quince-court-7-trip-button-2026-05-20@splicebook",
                        "quince-court-7-alarm-button-2026-05-01@splicebook",
                        "quince-court-7-alarm-age-2027-01-01@splicebook");
        assertThat(read.getEvents()).allMatch(e -> !e.getDateStart().getValue().hasTime());
        assertThat(read.getEvents())
                .extracting((VEvent e) -> e.getSummary().getValue())
                .anyMatch(s -> s.startsWith("Quince Court 7, with; a name, that has\\to be escaped"));
    }

    @Test
    void everyKindSaysHowAndWhereItComesFrom() {
        assertThat(TestKinds.all()).allSatisfy(k -> {
            assertThat(k.how()).isNotBlank();
            assertThat(k.source()).isNotBlank();
            assertThat(k.months()).isNotNegative();
        });
        assertThat(TestKinds.find(TestKinds.TRIP_BUTTON)).isPresent();
        assertThat(TestKinds.find(TestKinds.AFTER_CHANGE)).isPresent();
    }
}
