package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;

class ShutOffQuestionTest {
    private static Answer box(String box) {
        return Sample.ask(Sample.pearTree(), "shut-off", "box", box);
    }

    private static List<String> section(Answer a, String title) {
        return a.sections().stream()
                .filter(s -> s.title().startsWith(title))
                .findFirst()
                .orElseThrow()
                .lines();
    }

    @Test
    void bothBreakersOfABorrowedNeutralAreThrownAndEveryWireSaysWhy() {
        Answer a = box("stair-head");
        assertThat(a.rows(Row.Status.SHOWN)).extracting(Row::subject).containsExactly("main.10", "main.20");
        assertThat(section(a, "Why, wire by wire"))
                .contains(
                        "C20a.white, C20b.white, C20c.white, C20d.white, S1.white: main.10 through a load, main.20 through a"
                                + " load.");
        assertThat(a.rows(Row.Status.SHOWN).get(1).ways()).hasSizeGreaterThan(5);
        assertThat(a.outcome())
                .isEqualTo("With these 2 throws everything in stair-head should be off. Only your own test tells.");
    }

    @Test
    void allConductorsAreToBeTestedToGroundAndToEachOther() {
        List<String> tests = section(box("dining-door"), "Test before a hand goes in: 6 readings");
        assertThat(tests.get(0)).isEqualTo("In this order: C10b.black, C10b.white, the metal of dining-door.");
        assertThat(tests.get(1)).contains("every one that stands after it");
    }

    @Test
    void whatMustNotGoOffUnnoticedStandsFirstAmongTheAffectedAndIsRestored() {
        Answer a = box("sump-pit");
        assertThat(section(a, "Who and what is affected").get(0))
                .startsWith("sump goes off")
                .contains("Look at the pit");
        assertThat(section(a, "When the power is back")).anyMatch(l -> l.startsWith("sump: "));
    }

    @Test
    void aBoxThatNobodyOpenedIsToBeTakenAsLive() {
        Answer a = box("bedroom-front-1");
        assertThat(a.outcome()).contains("take it as live").contains("Safer: clear every source");
        assertThat(a.notProven()).anyMatch(n -> n.contains("may join a further source to it"));
        assertThat(section(a, "Safer")).anyMatch(l -> l.contains("open the main"));
    }

    @Test
    void thePanelIsForAQualifiedPerson() {
        Answer a = box("main");
        assertThat(a.outcome()).startsWith("No safe shut-off is known for main").contains("qualified person");
        assertThat(a.sections()).noneMatch(s -> s.title().startsWith("Do it"));
    }

    @Test
    void roomsCablesAndSpotsAreTargetsTooAndOneOfThemHasToBeNamed() {
        assertThat(Sample.ask(Sample.pearTree(), "shut-off", "place", "half-bath")
                        .rows(Row.Status.SHOWN))
                .extracting(Row::subject)
                .contains("main.10", "main.18");
        assertThat(Sample.ask(Sample.pearTree(), "shut-off", "cable", "C32a").rows(Row.Status.SHOWN))
                .extracting(Row::subject)
                .contains("main.32");
        assertThat(Sample.ask(Sample.pearTree(), "shut-off", "between", "dining-window,dining-corner")
                        .notProven())
                .anyMatch(n -> n.startsWith("Where cables run inside walls"));
        assertThat(Sample.problems(Sample.pearTree(), "shut-off", "box", "bath-door", "cable", "C32a"))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("Several targets"));
    }

    @Test
    void noSentenceOfAShutOffCallsAnythingDeadOrSafe() {
        for (String box : List.of("stair-head", "bedroom-front-1", "main", "garage-bench")) {
            Answer a = box(box);
            assertThat((a.outcome() + a.rows() + a.sections() + a.notProven()).toLowerCase(java.util.Locale.ROOT))
                    .doesNotContain(" dead", "is safe", " is off");
        }
    }

    @Test
    void darkSaysWhatToThrowAndNeverThatItIsOff() {
        Answer a = Sample.ask(Sample.pearTree(), "dark");
        assertThat(a.rows()).extracting(Row::subject).contains("main of main");
        assertThat(a.outcome()).contains("as dark as it can be made").contains("touch nothing");
        assertThat(section(a, "Stays live")).anyMatch(l -> l.contains("main.line-1"));
        assertThat(section(a, "As soon as there is time")).anyMatch(l -> l.startsWith("smoke-"));
    }
}
