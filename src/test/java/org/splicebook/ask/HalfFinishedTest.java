package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;

class HalfFinishedTest {
    @Test
    void aNeutralOfWhatIsFedPastTheBoxHasToBeJoinedBeforePowerComesBack() {
        Answer a = Sample.ask(Sample.pearTree(), "half-finished", "box", "stair-head");
        assertThat(Sample.cells(a, "C20a.white", "do").get(0).toString()).startsWith("Join it: it is the neutral");
        assertThat(Sample.cells(a, "C20a.white", "else").get(0).toString()).contains("stair-light", "main.10");
        assertThat(a.outcome()).startsWith("1 joint of stair-head must be joined again");
    }

    @Test
    void aGroundThatLeadsOnIsJoinedAndAHotMayStayCapped() {
        Answer a = Sample.ask(Sample.pearTree(), "half-finished", "box", "kitchen-door");
        assertThat(Sample.cells(a, "C12a.bare", "do").get(0).toString()).startsWith("Join it: it is the ground");
        assertThat(Sample.cells(a, "C12a.black", "do")).containsExactly("May stay parted, each end capped");
        assertThat(a.sections().get(0).lines()).anyMatch(l -> l.startsWith("These come back live: C12a.black"));
    }

    @Test
    void aPanelIsNotLeftHalfFinished() {
        assertThat(Sample.problems(Sample.pearTree(), "half-finished", "box", "main"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("is a panel"));
    }
}
