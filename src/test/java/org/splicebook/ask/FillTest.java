package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;

/** How full a box is, as a question. */
class FillTest {
    @Test
    void whatEachItemCountsAndWhatStillFitsIsTold() {
        Answer a = Sample.ask(Sample.pearTree(), "fill", "box", "kitchen-door");
        assertThat(a.outcome()).contains("kitchen-door", "in3");
        assertThat(a.rows())
                .isNotEmpty()
                .allSatisfy(
                        r -> assertThat(r.columns().get("article").toString()).startsWith("314.16(B)"));
        assertThat(a.sections()).extracting(Answer.Section::title).contains("Counted", "What would still fit");
    }

    @Test
    void theEditionDecidesHowGroundsCount() {
        Answer old = Sample.ask(Sample.pearTree(), "fill", "box", "kitchen-door", "edition", "2017");
        assertThat(old.sections().get(0).lines().get(0)).contains("2017", "the count up to 2017");
        assertThat(Sample.problems(Sample.pearTree(), "fill", "box", "kitchen-door", "edition", "lately"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("lately is no year"));
    }

    @Test
    void aPanelIsNotCounted() {
        assertThat(Sample.problems(Sample.pearTree(), "fill", "box", "main"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("is a panel"));
    }
}
