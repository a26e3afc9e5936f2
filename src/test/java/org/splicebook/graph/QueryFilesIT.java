package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.neo4j.driver.Session;
import org.neo4j.driver.summary.Plan;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;
import org.splicebook.rules.Severity;

/** The files of queries/, each against a small house that has one of each thing that people look for. */
class QueryFilesIT {
    private static final String HOUSE = "larch-lane-3";
    private static final Map<String, String> EXAMPLES = Map.of(
            "thing", "main.1",
            "device", "basin-gf",
            "point", "bed-1.top",
            "box", "counter",
            "wire", "K5.white",
            "breaker", "main.2");

    /** What only houses of a property, or of certain years, can have; PortfolioQueriesIT asks these. */
    private static final Set<String> OF_PROPERTIES = Set.of("feeds-units", "neutrals-across-units", "aluminium-branch");

    @TempDir
    static Path folder;

    static Neo4jHouseStore store;

    @BeforeAll
    static void open() {
        store = QuestionHouses.store(folder, List.of());
        store.put(QuestionHouses.planted(), 0, "Rowan", "first walk").get();
    }

    @AfterAll
    static void close() {
        store.close();
    }

    static Stream<String> files() throws IOException {
        return QuestionFolder.read(Path.of("queries")).keySet().stream();
    }

    @ParameterizedTest
    @MethodSource("files")
    void everyFileKeepsTheRulesOfPlansAndBeginsAtAnIndex(String origin) throws IOException {
        String text = QuestionFolder.read(Path.of("queries")).get(origin);
        QuestionFile file =
                QuestionParser.parse(QuestionFolder.id(origin), origin, text).get();
        try (Session session = store.driver().session()) {
            assertThat(Questions.look(session, file)).isEmpty();
            Set<String> operators = new TreeSet<>();
            walk(session.run("EXPLAIN " + text).consume().plan(), operators);
            assertThat(operators).doesNotContain("AllNodesScan", "AllRelationshipsScan");
            assertThat(operators).noneMatch(o -> o.contains("LabelScan") || o.contains("TypeScan"));
        }
    }

    private static void walk(Plan plan, Set<String> operators) {
        operators.add(plan.operatorType().replaceAll("@.*", ""));
        plan.children().forEach(child -> walk(child, operators));
    }

    @Test
    void theProgramBringsEveryFile() throws IOException {
        assertThat(store.questions().stream().map(Question::id))
                .containsExactlyInAnyOrderElementsOf(
                        files().map(QuestionFolder::id).toList());
        assertThat(store.refusedQuestions()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("files")
    void everyQuestionIsAnsweredWithinItsLimit(String origin) {
        Reply reply = ask(QuestionFolder.id(origin), Map.of());
        assertThat(reply.heading().words()).doesNotContain("{");
        if (reply instanceof Answer a) {
            assertThat(a.rows()).isNotEmpty();
            assertThat(a.assumed()).contains(Assumption.NO_BURIED_TAP);
            assertThat(a.cautions()).anyMatch(c -> c.contains("Test every wire yourself"));
        } else if (!OF_PROPERTIES.contains(reply.heading().question())) {
            assertThat(((Listing) reply).rows()).isNotEmpty();
        }
    }

    static Stream<List<Object>> planted() {
        return Stream.of(
                List.of("small-wires", Set.of("K1.black", "K3.black", "K3.white")),
                List.of("half-switched", Set.of("bed-1")),
                List.of("no-neutral-switches", Set.of("bed-door")),
                List.of("reversed-devices", Set.of("basin-gf")),
                List.of("bonded-subpanels", Set.of("sub")),
                List.of("ungrounded", Set.of("bed-1.top", "bed-1.bottom")),
                List.of("half-live", Set.of("hall-heater")),
                List.of("shares-with-critical", Set.of("bench.top", "bench.bottom")),
                List.of("shares-neutral", Set.of("main.3", "main.6")));
    }

    @ParameterizedTest
    @MethodSource("planted")
    void whatIsPlantedIsFoundAndNothingElse(List<Object> expected) {
        Answer answer = (Answer) ask((String) expected.get(0), Map.of());
        assertThat(answer.rows().stream()
                        .filter(r -> r.status() != Row.Status.EXCLUDED)
                        .map(Row::subject)
                        .distinct())
                .containsExactlyInAnyOrderElementsOf(strings(expected.get(1)));
    }

    @Test
    void listingsFindSparesHiddenBoxesAndLostCables() {
        assertThat(column("capped-wires", "joint")).contains("over-hall:K7.red", "counter:K9.black");
        assertThat(column("hidden-boxes", "box")).containsExactly("over-hall");
        assertThat(column("lost-cables", "cable")).containsExactly("K6");
        assertThat(column("houses-with-crossing", "house")).containsExactly(HOUSE);
    }

    @Test
    void whatTheCheckFindsIsAskedAcrossHouses() {
        List<Finding> found = Checks.of(QuestionHouses.planted(), Packs.of(QuestionHouses.planted())).stream()
                .filter(f -> f.severity() == Severity.DANGER)
                .toList();
        assertThat(column("findings", "finding", Map.of("severity", "danger")))
                .containsExactlyInAnyOrderElementsOf(
                        found.stream().map(f -> (Object) f.key()).toList());
        assertThat(column("houses-with-finding", "house", Map.of("rule", "borrowed-neutral")))
                .containsExactly(HOUSE);
        assertThat(column("houses-with-finding", "house", Map.of("rule", "no-such-rule")))
                .isEmpty();
        assertThat(column("findings-across-houses", "rule", Map.of()))
                .containsExactlyInAnyOrderElementsOf(
                        found.stream().map(f -> (Object) f.rule()).distinct().toList());
        assertThat(column("worst-houses", "house", Map.of())).containsExactly(HOUSE);
    }

    @Test
    void aBorrowedNeutralIsFoundWhereItsWaysPart() {
        Answer borrowed = (Answer) ask("neutral-crossings", Map.of("kind", "borrowed"));
        assertThat(borrowed.rows()).singleElement().satisfies(r -> {
            assertThat(r.columns()).containsEntry("box", "over-hall").containsEntry("points", List.of("hall-light"));
            assertThat(r.why()).anyMatch(w -> w.startsWith("in over-hall: joint K8.white"));
        });
    }

    @Test
    void aBreakerThatIsOffShouldLeaveItsLoadPointsOffAndOthersAsTheyWere() {
        Answer off = (Answer) ask("what-goes-off", Map.of("thing", "main.1"));
        assertThat(off.rows(Row.Status.SHOWN))
                .extracting(Row::subject, r -> r.columns().get("change"))
                .containsExactly(tuple("bed-1.bottom", "should be off"), tuple("bed-1.top", "should be off"));
        assertThat(off.rows(Row.Status.EXCLUDED))
                .hasSize(7)
                .allMatch(r -> r.columns().get("change").equals("unchanged"));
        assertThat(off.rows(Row.Status.SHOWN).get(0).why()).first().asString().isEqualTo("From bed-1.bottom.hot:");
        assertThat(off.rows(Row.Status.SHOWN).get(0).why()).anyMatch(w -> w.contains("wire K3.white"));
        assertThat(off.heading().revision()).isEqualTo(1);
        assertThat(off.rows().toString()).doesNotContain("is off", "is dead", "is safe");
    }

    @Test
    void aLostSpliceLeavesWhatIsBehindItLiveWithoutItsNeutral() {
        Answer lost = (Answer) ask("what-goes-off", Map.of("thing", "counter:K5.white"));
        assertThat(lost.rows(Row.Status.SHOWN))
                .extracting(Row::subject, r -> r.columns().get("change"))
                .contains(tuple("hall-light", "stays live with its neutral lost: it floats"));
    }

    @Test
    void aThingCannotGoInAWayThatIsNotItsOwn() {
        Answer cut = (Answer) ask("what-goes-off", Map.of("thing", "main.1", "how", "cut"));
        assertThat(cut.rows())
                .singleElement()
                .satisfies(r -> assertThat(r.columns()).containsEntry("change", "it cannot go in this way"));
    }

    @Test
    void mistakesInParametersAreToldAllAtOnceAndNameWhatIsKnown() {
        assertThat(problems("what-goes-off", HOUSE, Map.of("thng", "main.1", "how", "eaten")))
                .extracting(Problem::kind)
                .containsExactly(ProblemKind.UNKNOWN_KEY, ProblemKind.MISSING, ProblemKind.BAD_VALUE);
        assertThat(problems("what-goes-off", HOUSE, Map.of("thing", "main.11")))
                .singleElement()
                .satisfies(p ->
                        assertThat(p.said()).contains("has no thing main.11").contains("main.1"));
        assertThat(problems("way-back", HOUSE, Map.of("point", "bed-1")))
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("load point").contains("bed-1.top"));
        assertThat(problems("what-goes-of", HOUSE, Map.of()))
                .singleElement()
                .satisfies(p -> assertThat(p.cure()).contains("what-goes-off"));
        assertThat(problems("breakers", "", Map.of())).extracting(Problem::kind).containsExactly(ProblemKind.MISSING);
    }

    @Test
    void aHouseThatIsNotThereIsNamedWithTheNearest() {
        try {
            store.ask("breakers", "larch-lane", Map.of());
            throw new AssertionError("no problem");
        } catch (ProblemException e) {
            assertThat(e.problems()).singleElement().satisfies(p -> {
                assertThat(p.kind()).isEqualTo(ProblemKind.NOT_FOUND);
                assertThat(p.cure()).contains(HOUSE);
            });
        }
    }

    private static Reply ask(String id, Map<String, String> given) {
        Question question = store.questions().stream()
                .filter(q -> q.id().equals(id))
                .findFirst()
                .orElseThrow();
        Map<String, String> parameters = new TreeMap<>(given);
        for (Question.Parameter p : question.parameters()) {
            if (p.otherwise().isEmpty()) {
                parameters.putIfAbsent(p.name(), EXAMPLES.get(p.name()));
            }
        }
        return store.ask(id, question.acrossHouses() ? "" : HOUSE, parameters).get();
    }

    private static List<Problem> problems(String id, String house, Map<String, String> parameters) {
        return store.ask(id, house, parameters).problems();
    }

    private static List<Object> column(String id, String column) {
        return column(id, column, Map.of());
    }

    private static List<Object> column(String id, String column, Map<String, String> parameters) {
        Listing listing = (Listing) ask(id, parameters);
        int at = listing.columns().indexOf(column);
        return listing.rows().stream().map(r -> r.get(at)).toList();
    }

    private static List<String> strings(Object set) {
        return ((Set<?>) set).stream().map(String::valueOf).toList();
    }
}
