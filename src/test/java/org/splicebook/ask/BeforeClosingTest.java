package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;

class BeforeClosingTest {
    @Test
    void aBoxThatNobodyOpenedLeavesCablesJointsTabsAndBreakerOpen() {
        Answer a = Sample.ask(Sample.pearTree(), "before-closing", "box", "bedroom-front-1");
        assertThat(Sample.cells(a, "bedroom-front-1", "unknown"))
                .containsExactly("whether another cable enters", "whether its joints are all recorded");
        assertThat(Sample.cells(a, "front-1", "unknown"))
                .anyMatch(u -> String.valueOf(u).startsWith("whether its tab on the hot side is in"));
        assertThat(Sample.cells(a, "front-1.top", "unknown"))
                .containsExactly("which breaker feeds it: main.24, main.34, main.36 are not excluded");
        assertThat(a.outcome()).contains("can be settled while it is open");
    }

    @Test
    void aBareThatLeadsNowhereAndACableNobodyFollowedAreNamedWithTheirTest() {
        Answer hall = Sample.ask(Sample.pearTree(), "before-closing", "box", "hall-wall");
        assertThat(Sample.cells(hall, "C9d.bare", "unknown"))
                .anyMatch(u -> String.valueOf(u).startsWith("what it is: nothing that is recorded leads"));
        Answer shop = Sample.ask(Sample.pearTree(), "before-closing", "box", "shop-ceiling");
        assertThat(Sample.cells(shop, "U1", "test"))
                .anyMatch(t -> String.valueOf(t).contains("put a tone on it"));
    }

    @Test
    void aProtectiveDeviceWithoutAPassedTestIsToBeTested() {
        Answer a = Sample.ask(Sample.pearTree(), "before-closing", "box", "counter-right");
        assertThat(Sample.cells(a, "counter-gf-2", "unknown"))
                .anyMatch(u -> String.valueOf(u).startsWith("whether it trips and resets"));
        assertThat(Sample.ask(Sample.pearTree(), "before-closing", "box", "counter-left")
                        .rows())
                .noneMatch(r -> r.subject().equals("counter-gf-1")
                        && String.valueOf(r.columns().get("unknown")).contains("trips"));
    }

    @Test
    void whereAllIsSeenNothingIsLeftOpen() {
        Answer a = Sample.ask(Sample.pearTree(), "before-closing", "box", "sink-light-box");
        assertThat(a.rows()).isEmpty();
        assertThat(a.outcome()).contains("Tests of today are still to be made");
    }
}
