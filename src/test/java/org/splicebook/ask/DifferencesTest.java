package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.record.House;

class DifferencesTest {
    /** The red of the bench's cable is moved back to the other leg. */
    private static House moved() {
        String text = HouseWriter.write(Sample.pearTree())
                .replace("[\"21\", C13a.red]", "[\"15\", C13a.red]")
                .replace("[21, C13a.red]", "[15, C13a.red]");
        return HouseFiles.parse("moved", text).get();
    }

    private static Answer ask(House before, House after, Map<String, String> parameters) {
        try (AnsweringStore store = Sample.store(before)) {
            store.put(after, 1, "Rowan", "moved a wire").get();
            return (Answer) store.ask("differences", before.id(), parameters).get();
        }
    }

    @Test
    void aWireMovedToAnotherSpaceIsToldWithWhatFollowsAndWhatToTest() {
        Answer a = ask(Sample.pearTree(), moved(), Map.of());
        assertThat(Sample.cells(a, "main: C13a.red", "now")).containsExactly("15");
        assertThat(Sample.cells(a, "bench-2.top", "before")).contains("main.21");
        assertThat(Sample.cells(a, "bench-2.top", "now")).contains("main.15+17");
        assertThat(a.outcome()).startsWith("1 thing differs in the record");
        assertThat(a.wouldSettle().get(0))
                .startsWith("Test again, dead and live: bench-")
                .as("what shares the neutral is tested too")
                .contains("bench-1.top")
                .doesNotContain("fridge");
    }

    @Test
    void theSameHouseStoredAgainDiffersInNothing() {
        Answer a = ask(Sample.pearTree(), Sample.pearTree(), Map.of("from", "1", "to", "2"));
        assertThat(a.outcome()).isEqualTo("Nothing of the wiring differs.");
        assertThat(a.rows()).isEmpty();
    }

    @Test
    void whatIsOnlySaidOtherwiseIsToldAndNeedsNoTest() {
        String text = HouseWriter.write(Sample.pearTree()).replace("label: Freezer", "label: Freezer in the basement");
        Answer a = ask(Sample.pearTree(), HouseFiles.parse("told", text).get(), Map.of());
        assertThat(a.outcome()).startsWith("Nothing of the wiring differs; of 1 thing something else is said");
        assertThat(Sample.cells(a, "main.32", "change").get(0).toString()).contains("label, note, basis or age");
        assertThat(a.wouldSettle()).noneSatisfy(t -> assertThat(t).contains("Test again"));
    }

    @Test
    void aRevisionThatIsNotThereIsAProblem() {
        assertThat(Sample.problems(Sample.pearTree(), "differences", "from", "7"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("has no revision 7"));
        assertThat(Sample.ask(Sample.pearTree(), "differences").outcome()).contains("only one revision");
        assertThat(Sample.problems(Sample.pearTree(), "differences", "from", "x"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("'x' is no revision"));
    }
}
