package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;

/** Questions that a user adds. */
class QuestionFolderIT {
    private static final String HEADER = """
            // How is it?
            // columns: n
            // kind: listing
            """;

    @TempDir
    static Path folder;

    static Neo4jHouseStore store;

    @BeforeAll
    static void open() throws IOException {
        Path queries = Files.createDirectories(folder.resolve("queries"));
        write(queries, "boxes-in", """
            // Which boxes are in {place}?
            // parameter place: a place, for example kitchen
            // columns: box
            // kind: listing
            MATCH (p:Place {key: $house + '/' + $place})<-[:AT]-(x:Box)
            RETURN x.name AS box
            ORDER BY box
            """);
        write(queries, "writes", HEADER + "MATCH (h:House {key: $house}) SET h.title = 'x' RETURN 1 AS n");
        write(
                queries,
                "calls",
                HEADER + "MATCH (h:House {key: $house}) CALL db.labels() YIELD label RETURN label AS n");
        write(queries, "loads", HEADER + "LOAD CSV FROM 'http://127.0.0.1/' + $house AS row RETURN row AS n");
        write(queries, "shows", HEADER + "SHOW SETTINGS YIELD name AS n WHERE n <> $house RETURN n");
        write(
                queries,
                "groups",
                HEADER
                        + "MATCH (p:LoadPoint {key: $house}) ((a:Part)-[:PART_OF]->(b:Part)-[:PART_OF]->(c:Part))+ (m) RETURN DISTINCT m.name AS n");
        write(
                queries,
                "between",
                HEADER
                        + "MATCH (p:LoadPoint {key: $house}), (q:Pole {key: $house}) MATCH (p)-[:FED_BY|PART_OF|IN*]-(q) RETURN count(*) AS n");
        write(
                queries,
                "walks",
                HEADER + "MATCH (p:LoadPoint {key: $house})-[:FED_BY|PART_OF|IN*]-(m) RETURN m.name AS n");
        write(
                queries,
                "reaches",
                HEADER
                        + "MATCH (p:LoadPoint {key: $house + '/bed-1.top'})-[:FED_BY|PART_OF|IN*]->(m) WITH DISTINCT m RETURN m.name AS n");
        write(
                queries,
                "walks-allowed",
                HEADER + "// allow-trails: ways are short\n"
                        + "MATCH (p:LoadPoint {key: $house})-[:FED_BY|PART_OF|IN*]->(m) RETURN m.name AS n");
        write(queries, "misnames", HEADER + "MATCH (h:House {key: $house}) RETURN 1 AS m");
        write(queries, "misspells", HEADER + "MTCH (h:House {key: $house}) RETURN 1 AS n");
        write(queries, "headless", "MATCH (h:House {key: $house}) RETURN 1 AS n");
        write(queries, "breakers", HEADER + "MATCH (h:House {key: $house}) RETURN 1 AS n");
        write(
                queries,
                "never-ends",
                HEADER
                        + "MATCH (h:House {key: $house}) UNWIND range(1, 1000000) AS a UNWIND range(1, 1000000) AS b"
                        + " WITH a + b AS c RETURN count(c) AS n");
        store = QuestionHouses.store(folder, List.of(folder.resolve("none")));
        store.put(QuestionHouses.planted(), 0, "Rowan", "first walk").get();
    }

    @AfterAll
    static void close() {
        store.close();
    }

    @Test
    void aFileInTheDataFolderBecomesAQuestion() {
        Listing boxes = (Listing) store.ask("boxes-in", "larch-lane-3", Map.of("place", "bedroom"))
                .get();
        assertThat(boxes.rows()).containsExactly(List.of("bed"), List.of("bed-door"));
        assertThat(boxes.heading().words()).isEqualTo("Which boxes are in bedroom?");
        assertThat(store.ask("boxes-in", "larch-lane-3", Map.of("place", "bedrom"))
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.cure()).contains("bedroom"));
    }

    @ParameterizedTest
    @CsvSource({
        "writes, writes",
        "calls, calls a procedure",
        "loads, LOAD CSV",
        "shows, about the database",
        "groups, Repeat(Trail)",
        "between, which may never end",
        "walks, VarLengthExpand(All)",
        "misnames, its header names n",
        "misspells, does not understand",
        "headless, does not state the question",
        "breakers, already",
    })
    void whatItMayNotIsRefusedWithTheReason(String id, String reason) {
        assertThat(store.refusedQuestions())
                .filteredOn(p -> String.valueOf(p.where().file()).endsWith(id + ".cypher"))
                .anySatisfy(p -> assertThat(p.message()).contains(reason));
        if (!id.equals("breakers")) {
            assertThat(store.questions()).extracting(Question::id).doesNotContain(id);
        }
    }

    @Test
    void formsThatPruneAndTrailsWithAReasonAreTaken() {
        assertThat(store.questions()).extracting(Question::id).contains("reaches", "walks-allowed", "never-ends");
        Listing reached =
                (Listing) store.ask("reaches", "larch-lane-3", Map.of()).get();
        assertThat(reached.rows()).contains(List.of("main.1"), List.of("main"));
    }

    @Test
    void aFolderThatIsNotThereIsToldAndStopsNothing() {
        assertThat(store.refusedQuestions()).anyMatch(p -> p.kind() == ProblemKind.BAD_PATH);
    }

    @Test
    void aQuestionThatDoesNotEndIsStopped() {
        long start = System.nanoTime();
        assertThat(store.ask("never-ends", "larch-lane-3", Map.of()).problems())
                .singleElement()
                .extracting(Problem::kind)
                .isEqualTo(ProblemKind.TOO_SLOW);
        assertThat((System.nanoTime() - start) / 1e9).isLessThan(20);
    }

    private static void write(Path folder, String id, String text) throws IOException {
        Files.writeString(folder.resolve(id + ".cypher"), text);
    }
}
