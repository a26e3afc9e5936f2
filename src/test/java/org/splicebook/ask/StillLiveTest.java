package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class StillLiveTest {
    @Test
    void theWhiteOfTheStairLightIsNamedThoughItsBreakerIsOff() {
        Answer a = Sample.ask(Sample.pearTree(), "still-live", "breaker", "main.20", "box", "stair-head");
        assertThat(a.outcome()).contains("stair-head may still be live from main.10 (Lights down)");
        assertThat(Sample.cells(a, "C20a.white", "because"))
                .anyMatch(b -> String.valueOf(b).startsWith("carries the return of stair-light"));
        assertThat(Sample.cells(a, "C10g.white", "because"))
                .containsExactly("hot of another breaker; white, and hot all the same");
    }

    @Test
    void everyReasonHasItsWayBoxByBox() {
        Answer a = Sample.ask(Sample.pearTree(), "still-live", "breaker", "main.20", "box", "stair-head");
        Row traveler = a.rows().stream()
                .filter(r -> r.subject().equals("C10g.white"))
                .findFirst()
                .orElseThrow();
        assertThat(traveler.why())
                .contains("From C10g.white:", "wire C10g.white (seen)", "wire C10e.black (seen)")
                .anyMatch(line -> line.startsWith("in stair-foot: ") && line.contains("terminal foot.common"));
        assertThat(traveler.ways())
                .singleElement()
                .satisfies(w -> assertThat(w.steps())
                        .anyMatch(s -> s.cable().equals("C10a") && s.colour().equals("black")));
    }

    @Test
    void withItsNeutralCutOffAWireIsLiveThroughTheLoadOfAnotherBreaker() {
        // The cable of main.20 is cut: what hung on it floats, and the stair light brings main.10 to it.
        Answer a = Sample.ask(Sample.file("through-load.yaml"), "still-live", "breaker", "main.1", "box", "far");
        assertThat(Sample.cells(a, "K2.white", "because"))
                .anyMatch(b -> String.valueOf(b)
                        .startsWith("live through lamp, with its own feed lost; white, and hot all the same"));
    }

    @Test
    void whatIsTiedIsTakenAsOffToo() {
        Answer a = Sample.ask(Sample.pearTree(), "still-live", "breaker", "main.5+7", "box", "counter-right");
        assertThat(a.rows()).isEmpty();
        assertThat(a.outcome()).contains("the record is wrong, or the breaker did not open");
        assertThat(a.notProven()).anyMatch(n -> n.contains("can fail closed")).anyMatch(n -> n.contains("ghost"));
    }

    @Test
    void inABoxThatNobodyOpenedNoBreakerOfItsPartIsExcluded() {
        Answer a = Sample.ask(Sample.pearTree(), "still-live", "breaker", "main.34", "box", "bedroom-back-2");
        assertThat(a.rows(Row.Status.SHOWN)).isEmpty();
        assertThat(a.rows(Row.Status.POSSIBLE))
                .extracting(r -> r.columns().get("from"))
                .containsExactly("main.24 (Cellar lights)", "main.36 (Attic)");
    }

    @Test
    void thePanelsOwnSupplyStaysLive() {
        Answer a = Sample.ask(Sample.pearTree(), "still-live", "breaker", "main.1+3", "box", "garage-panel");
        assertThat(Sample.cells(a, "lugs of garage-panel", "from")).containsExactly("F1");
    }

    @Test
    void aWrongNameIsAProblemWithTheNearest() {
        assertThat(Sample.problems(Sample.pearTree(), "still-live", "breaker", "main.51", "box", "stairhead"))
                .extracting(p -> p.said())
                .anyMatch(s -> s.contains("no breaker main.51"))
                .anyMatch(s -> s.contains("no box stairhead") && s.contains("stair-head"));
        assertThat(Sample.problems(Sample.pearTree(), "still-live")).hasSize(2);
    }
}
