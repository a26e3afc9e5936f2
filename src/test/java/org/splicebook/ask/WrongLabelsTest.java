package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class WrongLabelsTest {
    private static final Answer SAMPLE = Sample.ask(Sample.pearTree(), "wrong-labels");

    private static List<String> subjects(Row.Status status) {
        return SAMPLE.rows(status).stream().map(Row::subject).toList();
    }

    @Test
    void labelsThatTheWiringOrTheTestsContradictAreFoundAndNoOthers() {
        assertThat(subjects(Row.Status.SHOWN)).containsExactly("main.16");
        assertThat(subjects(Row.Status.POSSIBLE))
                .containsExactlyInAnyOrder("main.14", "main.26", "main.31", "main.35", "main.36");
    }

    @Test
    void whereTheNamedLoadHangsIsTold() {
        assertThat(Sample.cells(SAMPLE, "main.26", "elsewhere")).containsExactly(List.of("main.14"));
        assertThat(Sample.cells(SAMPLE, "main.14", "elsewhere")).containsExactly(List.of("main.26"));
    }

    @Test
    void testsAloneContradictALabelOfAFloorThatWasNeverOpened() {
        assertThat(Sample.cells(SAMPLE, "main.36", "sightings").get(0).toString())
                .contains("s25", "s26");
    }
}
