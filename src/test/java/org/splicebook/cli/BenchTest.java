package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Question;

class BenchTest {
    private static final double EXACT = 1e-9;

    private final BenchReport report = new BenchReport("9.8.7");

    private static Timings millis(long... each) {
        return Timings.of(LongStream.of(each).map(ms -> ms * 1_000_000).toArray());
    }

    private static BenchReport.Asked asked(String question, int houses, Timings timings) {
        return new BenchReport.Asked(
                question, Map.of(), houses, timings, millis(2), millis(8), "splicebook bench --question " + question);
    }

    @Test
    void medianAndTailAreMeasuredValues() {
        Timings t = Timings.of(
                LongStream.rangeClosed(1, 200).map(i -> (201 - i) * 1_000_000).toArray());
        assertThat(t).isEqualTo(new Timings(200, 100, 198, 1, 200));
        assertThat(millis(7)).isEqualTo(new Timings(1, 7, 7, 7, 7));
    }

    @Test
    void growthIsTheMedianAmongManyBesideTheMedianAlone() {
        BenchReport.Asked among = asked("a", 1000, millis(6, 9, 90));
        report.asked.add(asked("a", 1, millis(1, 3, 30)));
        report.asked.add(among);
        assertThat(report.growth(among).orElseThrow()).isEqualTo(3, within(EXACT));
        assertThat(among.timesEmpty()).isEqualTo(4.5, within(EXACT));
        assertThat(report.growth(asked("b", 1000, millis(1)))).isEmpty();
    }

    @Test
    void everyFigureTellsHowToRepeatIt() {
        report.figures.add(new BenchReport.Figure("cold start", millis(5), "splicebook bench --only start"));
        report.asked.add(asked("a", 1, millis(1)));
        report.skipped.add("mine, what to ask it with is not known for it");
        assertThat(String.join("\n", report.lines(200)))
                .contains(
                        "cold start",
                        "splicebook bench --only start",
                        "splicebook bench --question ID",
                        "after a change",
                        "8.00",
                        "mine");
        assertThat(report.json().path("questions").path(0).path("repeat").asText())
                .isEqualTo("splicebook bench --question a");
    }

    @Test
    void questionOfAPersonsOwnIsAskedOnlyWhereItNeedsNothing() {
        assertThat(BenchQuestions.parameters(question("mine"))).contains(Map.of());
        assertThat(BenchQuestions.parameters(question("mine", new Question.Parameter("kind", "a kind", "any"))))
                .contains(Map.of());
        assertThat(BenchQuestions.parameters(question("mine", new Question.Parameter("box", "a box", ""))))
                .isEmpty();
    }

    private static Question question(String id, Question.Parameter... parameters) {
        return new Question(
                id, "What?", List.of(parameters), List.of("a"), Question.Kind.LISTING, false, "queries/" + id);
    }

    @Test
    void amountsOutOfReasonAreUsageErrors() {
        FakeProgram program = new FakeProgram();
        assertThat(program.run("bench", "--calls", "0")).isEqualTo(2);
        assertThat(program.err()).contains("--calls is 0");
        assertThat(program.run("bench", "--copies", "1")).isEqualTo(2);
        assertThat(program.run("bench", "--only", "wibble")).isEqualTo(2);
    }

    @Test
    void houseOfPagesHasThreeHundredLoadPointsThatAreFed() {
        assertThat(org.splicebook.wiring.Derivation.derive(BenchPages.large()).loadPoints())
                .hasSize(300)
                .allMatch(l -> l.feeds().size() == 1);
    }
}
