package org.splicebook.property;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemException;

class GoesDarkTest {
    private static Map<String, String> told(Answer a, Row.Status status) {
        Map<String, String> told = new TreeMap<>();
        a.rows(status)
                .forEach(r ->
                        told.merge(r.subject(), String.valueOf(r.columns().get("change")), (x, y) -> x + "; " + y));
        return told;
    }

    @Test
    void aBreakerOfTheCellarTakesOneUnitAndWhatHangsOnItNextDoor() {
        Answer a = new Properties().ask("goes-dark", "part", "common", "thing", "switch.1+3");
        assertThat(told(a, Row.Status.SHOWN))
                .containsOnlyKeys("14a:bed-1.bottom", "14a:bed-1.top", "14a:counter-gf", "14b:hall-1");
        assertThat(told(a, Row.Status.SHOWN).values()).containsOnly("should be off");
        assertThat(told(a, Row.Status.POSSIBLE)).isEmpty();
        // The cellar's own load points keep their feed, and so say nothing of the cellar.
        assertThat(told(a, Row.Status.EXCLUDED)).isEmpty();
        assertThat(a.rows(Row.Status.SHOWN).stream()
                        .filter(r -> r.subject().equals("14b:hall-1"))
                        .findFirst()
                        .orElseThrow()
                        .why())
                .containsExactly("common:to-14a feeds 14a:riser (seen)", "14a:to-14b feeds 14b:next-door (tested)");
        assertThat(a.outcome()).isEqualTo("In 2 of 3 parts load points should be off.");
    }

    @Test
    void theBasisOfARowIsTheWeakestOnItsWayLinksAmongThem() {
        Answer a = new Properties().ask("goes-dark", "part", "common", "thing", "switch.1+3");
        assertThat(a.rows())
                .filteredOn(r -> r.subject().equals("14b:hall-1"))
                .allMatch(r -> r.basis().word().equals("tested"));
        assertThat(a.rows())
                .filteredOn(r -> r.subject().equals("14a:counter-gf"))
                .allMatch(r -> r.basis().word().equals("seen"));
    }

    @Test
    void aUnitThatNothingReachesIsExcludedOnlyWhereTheLinksAreComplete() {
        Answer complete = new Properties().ask("goes-dark", "part", "common", "thing", "switch.2+4");
        assertThat(told(complete, Row.Status.EXCLUDED)).containsOnlyKeys("14a");
        Answer open = new Properties()
                .changed("complete: [links]\n", "")
                .ask("goes-dark", "part", "common", "thing", "switch.2+4");
        assertThat(told(open, Row.Status.EXCLUDED)).isEmpty();
        assertThat(open.notProven()).anyMatch(s -> s.contains("14a"));
    }

    @Test
    void theHousePanelTakesTheCommonPartsAlone() {
        Answer a = new Properties().ask("goes-dark", "part", "common", "thing", "R3", "how", "cut");
        assertThat(told(a, Row.Status.SHOWN)).containsOnlyKeys("common:stair-lamp", "common:washer");
        assertThat(told(a, Row.Status.EXCLUDED)).containsOnlyKeys("14a", "14b");
    }

    @Test
    void aNeutralLostInTheRiserFloatsTheUnitAndWhatItFeeds() {
        Answer a = new Properties().ask("goes-dark", "part", "common", "thing", "switch:R1.white", "how", "lost");
        assertThat(told(a, Row.Status.SHOWN))
                .containsOnlyKeys("14a:bed-1.bottom", "14a:bed-1.top", "14a:counter-gf", "14b:hall-1")
                .allSatisfy((p, change) -> assertThat(change).contains("neutral lost"));
    }

    @Test
    void oneLegLostTakesNothingSurelyAndAllPossibly() {
        Answer a = new Properties().ask("goes-dark", "part", "common", "thing", "switch.1", "how", "open");
        assertThat(told(a, Row.Status.SHOWN)).isEmpty();
        assertThat(told(a, Row.Status.POSSIBLE))
                .containsKeys("14a:bed-1.top", "14a:counter-gf", "14b:hall-1")
                .allSatisfy((p, change) -> assertThat(change).contains("may go off"));
    }

    @Test
    void aUnitWhoseFeedNobodyRecordedMayGoDark() {
        Answer a = new Properties()
                .changed("complete: [links]\n", "")
                .changed("  - {from: common, point: to-14b, to: 14b, source: riser}\n", "")
                .ask("goes-dark", "part", "common", "thing", "switch.1+3");
        assertThat(told(a, Row.Status.POSSIBLE).get("14b")).contains("nobody recorded what feeds its source riser");
        assertThat(told(a, Row.Status.SHOWN)).containsKey("14b:hall-1");
    }

    @Test
    void aUnitWithoutARecordIsNeverCalledUntouched() {
        Properties p = new Properties().without("alder-row-14a");
        Answer fed = p.ask("goes-dark", "part", "common", "thing", "switch.1+3");
        assertThat(told(fed, Row.Status.SHOWN).get("14a")).contains("what feeds it is lost");
        Answer other = p.ask("goes-dark", "part", "common", "thing", "switch.2+4");
        assertThat(told(other, Row.Status.POSSIBLE).get("14a")).contains("is not stored");
        assertThat(told(other, Row.Status.POSSIBLE).get("14b")).contains("no stored record has");
        assertThat(told(other, Row.Status.EXCLUDED)).isEmpty();
    }

    @Test
    void whatIsFedFromTwoLinksMayLiveOn() {
        Answer a = new Properties()
                .changed("links:\n", "links:\n  - {from: common, point: to-14b, to: 14a, source: riser}\n")
                .ask("goes-dark", "part", "common", "thing", "switch.1+3");
        assertThat(told(a, Row.Status.SHOWN)).isEmpty();
        assertThat(told(a, Row.Status.POSSIBLE)).containsKeys("14a:counter-gf", "14b:hall-1");
    }

    @Test
    void linksInARingEnd() {
        Answer a = new Properties()
                .with(Properties.text("unit-14a.yaml")
                        .replace(
                                "sources:\n", "sources:\n  back: {kind: neighbour, system: single 120, at: counter}\n"))
                .changed("links:\n", "links:\n  - {from: 14b, point: hall-1, to: 14a, source: back}\n")
                .ask("goes-dark", "part", "common", "thing", "service");
        assertThat(told(a, Row.Status.SHOWN)).containsKeys("14a:counter-gf", "14b:counter-gf", "common:washer");
    }

    @Test
    void aThingThatIsNotThereIsToldWithWhatIs() {
        for (List<String> wrong : List.of(
                List.of("part", "commons", "thing", "switch.1+3"),
                List.of("part", "common", "thing", "switch.1+4"),
                List.of("part", "common", "thing", "R1", "how", "trip"))) {
            try {
                new Properties().ask("goes-dark", wrong.toArray(String[]::new));
                assertThat(wrong).as("should be refused").isNull();
            } catch (ProblemException e) {
                assertThat(e.problems()).hasSize(1).allMatch(p -> !p.cure().isEmpty());
            }
        }
    }
}
