package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/** A survey as it is asked for and told, in a house of which only the faces are known. */
class SurveyQuestionsTest {
    private static final House FIRST_DAY =
            HouseFiles.read(Path.of("sample-house/bare")).get();

    private static List<String> section(Answer a, String title) {
        return a.sections().stream()
                .filter(s -> s.title().startsWith(title))
                .flatMap(s -> s.lines().stream())
                .toList();
    }

    @Test
    void aPassSaysWhatToTurnOffWhereToWalkAndWhatToDoBeforeAndAfter() {
        Answer a = Sample.ask(FIRST_DAY, "survey-pass");
        assertThat(a.rows()).isNotEmpty();
        assertThat(section(a, "Turn off")).isNotEmpty();
        assertThat(section(a, "Walk")).isNotEmpty();
        assertThat(section(a, "Before")).isNotEmpty();
        assertThat(section(a, "After")).isNotEmpty();
        assertThat(a.notProven()).anyMatch(s -> s.contains("dead"));
    }

    @Test
    void alarmsSumpAndFreezerGoOffAloneAndWhatWasAskedToStayOnIsNeverOff() {
        for (String method : List.of("adaptive", "coded", "corrected", "singly")) {
            Answer a = Sample.ask(FIRST_DAY, "survey-pass", "method", method, "stay-on", "main.9,main.11");
            List<String> off = section(a, "Turn off");
            assertThat(off).as(method).noneMatch(s -> s.startsWith("main.9") || s.startsWith("main.11"));
            if (off.size() > 1) {
                assertThat(off)
                        .as(method)
                        .noneMatch(s -> s.startsWith("main.28") || s.startsWith("main.30") || s.startsWith("main.32"));
            }
        }
    }

    @Test
    void aMedicalDeviceStopsTheSurveyUntilItsBackupRuns() {
        House house = HouseFiles.parse("quay.yaml", """
                        splicebook: 1
                        house: quay-cottage
                        panels:
                          main: {supply: service, breakers: {1: {rating: 15 A}, 3: {rating: 15 A}}}
                        sources: {service: {system: split-phase 120/240, bond: main}}
                        boxes:
                          bed: {devices: {bed-1: {kind: single-receptacle, load: oxygen}}}
                          hall: {devices: {hall-1: {kind: luminaire}}}
                        """).get();
        assertThat(Sample.ask(house, "survey-pass").rows()).isEmpty();
        assertThat(Sample.ask(house, "survey-pass").outcome()).contains("health", "bed-1");
        assertThat(Sample.ask(house, "survey-pass", "backed-up", "bed-1").rows())
                .isNotEmpty();
    }

    @Test
    void aNameThatIsNotThereIsToldWithTheNearest() {
        assertThat(Sample.problems(FIRST_DAY, "survey-pass", "stay-on", "main.99"))
                .anyMatch(p -> p.said().contains("main.99"));
        assertThat(Sample.problems(FIRST_DAY, "survey-pass", "sure", "7")).isNotEmpty();
    }

    @Test
    void sagsNeedWhatTheSourceSagsByAndThenMakeABreakerLikelier() {
        String sags = "living-1.top 10 A: living-1.top 2.3, living-2.top 1.9; living-2.top 10 A: living-2.top 2.8";
        assertThat(Sample.problems(FIRST_DAY, "survey-status", "sags", sags))
                .anyMatch(p -> p.said().contains("elsewhere") && p.said().contains("ohms"));
        assertThat(Sample.ask(FIRST_DAY, "survey-status", "sags", sags, "elsewhere", "0.04")
                        .rows())
                .isNotEmpty();
    }

    @Test
    void aMisreadIsToldWithItsPassAndAskedForAgain() {
        List<Sighting> seen = new ArrayList<>();
        for (int k = 1; k <= 4; k++) {
            seen.add(new Sighting(
                    "x" + k,
                    "2026-04-01",
                    List.of("main.9"),
                    Map.of(),
                    "lamp",
                    "pass-" + k,
                    null,
                    new Sighting.Lit(
                            "living-1.top", null, k == 3 ? Sighting.Reading.LIT : Sighting.Reading.NOT_LIT, null),
                    null));
        }
        seen.add(new Sighting(
                "x5",
                "2026-04-01",
                List.of("main.10"),
                Map.of(),
                "lamp",
                "pass-5",
                null,
                new Sighting.Lit("living-1.top", null, Sighting.Reading.LIT, null),
                null));
        House house = FIRST_DAY.withSightings(seen);
        for (String question : List.of("survey-status", "survey-pass")) {
            assertThat(section(Sample.ask(house, question), "Readings that all else"))
                    .as(question)
                    .singleElement()
                    .satisfies(l -> assertThat(l)
                            .contains("living-1.top: lit in pass-3", "main.9 off", "Everything else says: main.9"));
        }
    }

    /** Walked pass by pass, each answer asked anew of the sightings alone, as if on another day. */
    @Test
    void aWalkGoesOnFromTheSightingsAloneAndEndsByItself() {
        Set<String> loads = new TreeSet<>();
        House quiet = FIRST_DAY.withSightings(List.of());
        List<Sighting> seen = new ArrayList<>();
        List<String> breakers = List.of("main.9", "main.10", "main.11", "main.33", "main.34", "main.20");
        int passes = 0;
        try (AnsweringStore store = Sample.store(quiet)) {
            Map<String, String> asked = Map.of("misreads", "0.001", "free", "main.28,main.30,main.32");
            Answer next = (Answer) store.ask("survey-pass", quiet.id(), asked).get();
            while (!next.rows().isEmpty() && passes < 40) {
                passes++;
                for (Row r : next.rows()) {
                    loads.add(r.subject());
                    String feed = breakers.get(Math.floorMod(r.subject().hashCode(), breakers.size()));
                    boolean isOut = ((List<?>) r.columns().get("off")).contains(feed);
                    seen.add(new Sighting(
                            "p" + passes + "-" + r.subject().replace('.', '-'),
                            "2026-04-01",
                            ((List<?>) r.columns().get("off"))
                                    .stream().map(Object::toString).toList(),
                            Map.of(),
                            "lamp",
                            String.valueOf(r.columns().get("pass")),
                            null,
                            new Sighting.Lit(
                                    r.subject(), null, isOut ? Sighting.Reading.NOT_LIT : Sighting.Reading.LIT, null),
                            null));
                }
                store.appendSightings(quiet.id(), seen).get();
                next = (Answer) store.ask("survey-pass", quiet.id(), asked).get();
            }
            Answer status =
                    (Answer) store.ask("survey-status", quiet.id(), asked).get();
            assertThat(passes).isLessThan(25);
            for (Row r : status.rows()) {
                assertThat(r.columns().get("likeliest").toString())
                        .as(r.subject())
                        .startsWith(breakers.get(Math.floorMod(r.subject().hashCode(), breakers.size())));
            }
            assertThat(section(status, "Labels")).anyMatch(s -> s.startsWith("main.22"));
        }
    }
}
