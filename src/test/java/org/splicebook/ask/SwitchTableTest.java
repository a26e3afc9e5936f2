package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class SwitchTableTest {
    @Test
    void aStairLightIsSwitchedFromBothEndsAndTheTableSaysHow() {
        Answer a = Sample.ask(Sample.pearTree(), "switch-table", "point", "stair-light");
        assertThat(a.rows()).singleElement().satisfies(r -> {
            assertThat(r.columns())
                    .containsEntry("does", "switched from 2 places: moving any of them changes it")
                    .containsEntry(
                            "table",
                            "foot up, head up: on; foot down, head up: off; foot up, head down: off; foot down, head down: on");
            assertThat(r.why()).anyMatch(w -> w.contains("terminal foot.common"));
        });
    }

    @Test
    void aChainOfThreeSwitchesIsChangedByEachOfThem() {
        Answer a = Sample.ask(Sample.golden("four-way-chain"), "switch-table");
        assertThat(Sample.cells(a, "lamp", "does"))
                .containsExactly("switched from 3 places: moving any of them changes it");
        assertThat(Sample.cells(a, "lamp", "table").get(0).toString()).contains("s1 up, s2 up, s3 up: on");
    }

    @Test
    void theOldThreeWayThatSwitchesBothWiresLeavesALampLiveThoughDark() {
        Answer a = Sample.ask(Sample.golden("three-way-carter"), "switch-table", "switch", "s2");
        assertThat(Sample.cells(a, "lamp", "table"))
                .containsExactly(
                        "s1 up, s2 up: off, and still live; s1 down, s2 up: on; s1 up, s2 down: on; s1 down, s2 down: off");
        assertThat(a.outcome()).contains("still live");
    }

    @Test
    void aSwitchInTheNeutralLeavesTheLampLive() {
        Answer a = Sample.ask(Sample.golden("switched-neutral"), "switch-table");
        assertThat(Sample.cells(a, "lamp", "table")).containsExactly("s up: on; s down: off, and still live");
    }

    @Test
    void whatASwitchInABoxThatNobodyOpenedDoesIsNotProven() {
        Answer a = Sample.ask(Sample.pearTree(), "switch-table", "switch", "front-sw");
        assertThat(a.rows()).isEmpty();
        assertThat(a.outcome()).contains("That does not mean that it changes nothing");
        assertThat(a.notProven()).contains("What front-sw switches.");
    }

    @Test
    void ofAHalfSwitchedDuplexOneHalfFollowsTheSwitch() {
        Answer a = Sample.ask(Sample.pearTree(), "switch-table", "switch", "lamp-sw");
        assertThat(a.rows(Row.Status.SHOWN)).extracting(Row::subject).containsExactly("living-3.top");
    }
}
