package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class MissingProtectionTest {
    @Test
    void aDeviceWiredLineForLoadDoesNotProtectItsOwnFace() {
        Answer a = Sample.ask(Sample.pearTree(), "missing-protection", "place", "laundry");
        assertThat(Sample.cells(a, "sink-gf", "because"))
                .containsExactly("sink-gf is wired line for load: its own face is ahead of its sensor");
        assertThat(Sample.cells(a, "counter-laundry.top", "because")).isEmpty();
    }

    @Test
    void whereNoDeviceIsOnTheWayTheBreakerIsNamed() {
        Answer a = Sample.ask(Sample.pearTree(), "missing-protection", "place", "dining");
        assertThat(Sample.cells(a, "dining-2.top", "because"))
                .containsExactly("no ground-fault device is on its way, from main.9");
        assertThat(a.outcome()).startsWith("Of 6 load points 6 have no ground-fault protection");
    }

    @Test
    void aMissingGroundIsExplainedByTheOldCableOrByWhereTheBareLeads() {
        Answer a = Sample.ask(Sample.pearTree(), "missing-protection", "what", "ground");
        assertThat(Sample.cells(a, "dining-2.top", "because"))
                .containsExactly("nothing is on its ground terminal: C9b of 1958 has no ground in it");
        assertThat(Sample.cells(a, "hall-1.top", "because"))
                .containsExactly("its ground goes over C9d.bare to dining-corner, and from there to no ground bar");
        assertThat(Sample.cells(a, "fridge.top", "because")).isEmpty();
    }

    @Test
    void whatIsNotKnownIsOnlyPossible() {
        Answer a = Sample.ask(Sample.pearTree(), "missing-protection", "place", "bedroom-front", "what", "arc-fault");
        assertThat(a.rows(Row.Status.SHOWN)).isEmpty();
        assertThat(Sample.cells(a, "front-4.top", "because")).containsExactly("what feeds it is not known");
    }
}
