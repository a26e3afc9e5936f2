package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.Sighting.Reading;

/** What the sightings of the sample house tell, and what they do not. */
class WhatFeedsTest {
    private static final House HOUSE = Sample.pearTree();

    private static Row row(Answer a, String subject) {
        return a.rows().stream()
                .filter(r -> r.subject().equals(subject))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void floorThatWasNeverOpenedIsRankedByItsTestsAndNothingIsExcludedByThem() {
        Answer a = Sample.ask(HOUSE, "evidence", "at", "front-1.top");
        assertThat(row(a, "main.34").status()).isEqualTo(Row.Status.POSSIBLE);
        assertThat(row(a, "main.36").status()).isEqualTo(Row.Status.POSSIBLE);
        assertThat(row(a, "main.36").columns().get("sightings")).isEqualTo(List.of("s18", "s33"));
        assertThat(row(a, "main.1+3").status()).isEqualTo(Row.Status.EXCLUDED);
        assertThat(a.wouldSettle().get(0)).contains("front-1.top", "main.34");
    }

    @Test
    void wiringThatWasSeenShowsItsBreaker() {
        Answer a = Sample.ask(HOUSE, "evidence", "at", "furnace");
        assertThat(a.outcome()).contains("Only main.26 feeds furnace");
        assertThat(row(a, "main.26").status()).isEqualTo(Row.Status.SHOWN);
    }

    @Test
    void everyLoadPointIsTold() {
        Answer a = Sample.ask(HOUSE, "evidence");
        assertThat(a.rows()).hasSize(129);
        assertThat(row(a, "front-1.top").columns().get("says").toString()).contains("main.34", "main.36");
    }

    @Test
    void pointThatIsNotThereNamesTheNearest() {
        assertThat(Sample.problems(HOUSE, "evidence", "at", "front-1.topp"))
                .singleElement()
                .satisfies(p -> {
                    assertThat(p.kind()).isEqualTo(ProblemKind.NOT_FOUND);
                    assertThat(p.cure()).contains("front-1.top");
                });
    }

    @Test
    void sampleHouseHasNoContradictionUntilSomeoneSeesWhatCannotBe() {
        assertThat(Sample.ask(HOUSE, "contradictions").rows()).isEmpty();
        Sighting lit = new Sighting(
                "x1",
                "2026-03-30",
                List.of("main.26"),
                Map.of(),
                "meter",
                "later",
                null,
                new Sighting.Lit("furnace", null, Reading.LIT, null),
                null);
        List<Sighting> seen = new ArrayList<>(HOUSE.sightings());
        seen.add(lit);
        House disputed = HOUSE.withSightings(seen);
        Answer a = Sample.ask(disputed, "contradictions");
        assertThat(a.rows()).isNotEmpty();
        assertThat(a.rows().get(0).columns().get("sightings").toString()).contains("x1");
        assertThat(a.rows().get(0).why()).anySatisfy(w -> assertThat(w).contains("furnace lit", "main.26 off"));
        assertThat(a.wouldSettle().get(0)).contains("x1");
        Answer feeds = Sample.ask(disputed, "evidence", "at", "furnace");
        assertThat(feeds.notProven()).anySatisfy(n -> assertThat(n).contains("x1", "contradictions"));
    }
}
