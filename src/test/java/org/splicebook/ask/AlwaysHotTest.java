package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class AlwaysHotTest {
    @Test
    void aSwitchLoopHasNoNeutralAndNoOtherBoxOfThatOldRunHasAllThree() {
        Answer a = Sample.ask(Sample.pearTree(), "always-hot", "box", "dining-door");
        assertThat(a.outcome())
                .startsWith("dining-door has no neutral and no ground for main.10 (Lights down).")
                .contains("No box that its cables lead to");
        assertThat(Sample.cells(a, "dining-door", "missing").get(0).toString()).isEqualTo("[neutral, ground]");
    }

    @Test
    void theNeutralOfAnotherCircuitInTheSameBoxDoesNotCount() {
        Answer a = Sample.ask(Sample.pearTree(), "always-hot", "box", "front-door");
        assertThat(a.rows())
                .filteredOn(r -> r.subject().equals("front-door"))
                .extracting(
                        r -> r.columns().get("circuit"),
                        r -> r.columns().get("neutral").toString())
                .contains(
                        org.assertj.core.groups.Tuple.tuple("main.10 (Lights down)", "[]"),
                        org.assertj.core.groups.Tuple.tuple(
                                "main.31 (Garage lights)", "[C31a.white, C31b.white, C31c.white]"));
    }

    @Test
    void aBoxWithAllThreeSaysSoAndGivesTheWays() {
        Answer a = Sample.ask(Sample.pearTree(), "always-hot", "box", "kitchen-door");
        assertThat(a.outcome()).isEqualTo("kitchen-door holds all three, of main.12 (Kitchen lights).");
        assertThat(a.rows()).singleElement().satisfies(r -> {
            assertThat(r.status()).isEqualTo(Row.Status.SHOWN);
            assertThat(r.ways()).hasSize(2);
        });
    }

    @Test
    void fromAFixtureTheNearestBoxIsOneCableAway() {
        Answer a = Sample.ask(Sample.pearTree(), "always-hot", "box", "sink-light-box");
        assertThat(a.outcome())
                .contains("The nearest box that holds all three is kitchen-door, 1 cable away, over C12c.");
    }

    @Test
    void aBoxNotOpenedIsNeverSaidToHoldNone() {
        Answer a = Sample.ask(Sample.pearTree(), "always-hot", "box", "bedroom-front-door");
        assertThat(a.rows(Row.Status.EXCLUDED)).isEmpty();
        assertThat(a.outcome()).contains("as far as is recorded");
    }
}
