package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;

class QuestionParserTest {
    private static final String GOOD = """
            // What hangs on {breaker}, {how}?
            // parameter breaker: a breaker, for example main.4
            // parameter how: how much [one of: all, some] [default: all]
            // columns: subject, status, basis, place
            // kind: answer
            // note: a note
            MATCH (b:Breaker {key: $house + '/' + $breaker}) // a comment with $dollar and 'quote
            RETURN '$text' AS subject, $how AS status, b.basis AS basis, 1 AS place
            """;

    @Test
    void theHeaderStatesTheQuestion() {
        QuestionFile file = parse(GOOD).get();
        assertThat(file.question().words()).isEqualTo("What hangs on {breaker}, {how}?");
        assertThat(file.question().parameters())
                .containsExactly(
                        new Question.Parameter("breaker", "a breaker, for example main.4", ""),
                        new Question.Parameter("how", "how much: all, some", "all"));
        assertThat(file.question().columns()).containsExactly("subject", "status", "basis", "place");
        assertThat(file.question().kind()).isEqualTo(Question.Kind.ANSWER);
        assertThat(file.choices().get("how")).containsExactly("all", "some");
    }

    @Test
    void everyMistakeOfTheHeaderIsToldAtOnceWithItsLine() {
        String bad = """
                // What hangs on {braeker}?
                // parameter breaker: a breaker
                // colums: subject
                // kind: answr
                // parameter
                MATCH (b:Breaker {key: $house + '/' + $breaker}) RETURN b.name AS subject
                """;
        assertThat(said(parse(bad)))
                .anyMatch(s -> s.startsWith("q.cypher:3:1") && s.contains("colums"))
                .anyMatch(s -> s.startsWith("q.cypher:4:1") && s.contains("answr") && s.contains("answer or listing"))
                .anyMatch(s -> s.startsWith("q.cypher:5:1") && s.contains("a name and a meaning"))
                .anyMatch(s -> s.contains("{braeker} is no parameter"))
                .anyMatch(s -> s.contains("does not name the columns"));
    }

    @Test
    void aQuestionOfOneHouseMustAskForIt() {
        String all = GOOD.replace("$house + '/' + ", "");
        assertThat(said(parse(all))).singleElement().asString().contains("Nothing in it asks for one house");
        assertThat(parse(all.replace("// kind", "// across-houses\n// kind"))
                        .get()
                        .question()
                        .acrossHouses())
                .isTrue();
    }

    @Test
    void anAnswerBeginsWithSubjectStatusBasis() {
        assertThat(said(parse(GOOD.replace("subject, status, basis, place", "place, subject, status"))))
                .singleElement()
                .asString()
                .contains("They begin with subject, status, basis.");
    }

    @Test
    void whatIsUsedMustBeDeclaredAndWhatIsDeclaredUsed() {
        assertThat(said(parse(GOOD.replace("$how AS", "$now AS"))))
                .anyMatch(s -> s.contains("$now is no parameter"))
                .anyMatch(s -> s.contains("parameter how is not used"));
    }

    @Test
    void trailsNeedAReason() {
        String bare = GOOD.replace("// note: a note", "// allow-trails:");
        assertThat(said(parse(bare))).singleElement().asString().contains("gives no reason");
    }

    @Test
    void aFileWithoutAHeaderIsNotAQuestion() {
        assertThat(said(parse("MATCH (n) RETURN n"))).anyMatch(s -> s.contains("does not state the question"));
        assertThat(said(parse(""))).isNotEmpty();
    }

    @Test
    void theNearestNamesComeFirst() {
        assertThat(Nearest.to("main.1l", List.of("sub.11", "main.1", "kitchen", "main.11")))
                .startsWith("main.1", "main.11");
    }

    private static Result<QuestionFile> parse(String text) {
        return QuestionParser.parse("q", "q.cypher", text);
    }

    private static List<String> said(Result<QuestionFile> result) {
        return result.problems().stream().map(Problem::said).toList();
    }
}
