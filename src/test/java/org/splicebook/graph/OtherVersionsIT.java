package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.neo4j.driver.AuthTokens;
import org.neo4j.driver.Driver;
import org.neo4j.driver.GraphDatabase;
import org.neo4j.driver.Record;
import org.splicebook.answer.Reply;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/** Stores that an older or a newer program wrote. */
class OtherVersionsIT {
    /** What the first version of the schema had; all else came later. */
    private static final Set<String> FIRST = Set.of("Ledger_house", "Revision_key", "Sighting_key", "Schema_name");

    private static final String INDEXES =
            "SHOW INDEXES YIELD name, type WHERE type <> 'LOOKUP' RETURN name ORDER BY name";

    @TempDir
    Path folder;

    private Neo4jHouseStore open() {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }

    private static List<Record> run(Driver driver, String cypher) {
        return driver.executableQuery(cypher).execute().records();
    }

    private static List<String> names(Driver driver, String cypher) {
        return run(driver, cypher).stream().map(r -> r.get("name").asString()).toList();
    }

    /** Opens the database without the store over it. */
    private void past(Consumer<Driver> work) {
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder);
                Driver driver = GraphDatabase.driver(neo4j.uri(), AuthTokens.basic("neo4j", neo4j.secret()))) {
            work.accept(driver);
        }
    }

    private static void makeOlder(Driver driver) {
        names(driver, "SHOW CONSTRAINTS YIELD name RETURN name").stream()
                .filter(n -> !FIRST.contains(n))
                .forEach(n -> run(driver, "DROP CONSTRAINT " + n));
        names(driver, INDEXES).stream().filter(n -> !FIRST.contains(n)).forEach(n -> run(driver, "DROP INDEX " + n));
        run(driver, "MATCH (n:Finding) DETACH DELETE n");
        run(driver, "MATCH (h:House) SET h.derivation = h.derivation - 1");
        run(driver, "MATCH (s:Schema) WHERE s.name IN ['papers', 'people'] DELETE s");
        run(driver, "MATCH (s:Schema {name: 'splicebook'}) SET s.version = 1");
    }

    @Test
    void anOlderStoreIsBroughtUpToDateAndAnswersAsBefore() {
        House house = TestHouses.workshop("alder", "Alder");
        List<String> indexes;
        Reply findings;
        try (Neo4jHouseStore store = open()) {
            store.put(TestHouses.workshop("alder", "Before"), 0, "Rowan", "").get();
            store.put(house, 1, "Rowan", "").get();
            indexes = names(store.driver(), INDEXES);
            findings = store.ask("findings", "alder", Map.of()).get();
        }
        past(OtherVersionsIT::makeOlder);
        try (Neo4jHouseStore store = open()) {
            assertThat(names(store.driver(), INDEXES)).isEqualTo(indexes);
            assertThat(run(store.driver(), "MATCH (s:Schema) RETURN s.name AS name, s.version AS version").stream()
                            .collect(Collectors.toMap(
                                    r -> r.get("name").asString(),
                                    r -> r.get("version").asInt())))
                    .isEqualTo(Map.of("splicebook", Schema.HOUSES.version(), "papers", 1, "people", 1));
            assertThat(store.findHouse("alder").orElseThrow().house()).isEqualTo(house);
            assertThat(store.revisions("alder")).hasSize(2);
            assertThat(store.ask("findings", "alder", Map.of()).get()).isEqualTo(findings);
            assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
        }
    }

    @Test
    void aNewerStoreIsRefusedAndNothingInItIsChanged() {
        try (Neo4jHouseStore store = open()) {
            store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        }
        past(driver -> {
            run(driver, "MATCH (s:Schema {name: 'splicebook'}) SET s.version = s.version + 1");
            run(driver, "MATCH (s:Schema) WHERE s.name IN ['papers', 'people'] DELETE s");
        });
        requireRefused();
        past(driver -> {
            assertThat(names(driver, "MATCH (s:Schema) RETURN s.name AS name")).containsExactly("splicebook");
            run(driver, "MATCH (s:Schema) SET s.version = s.version - 1");
        });
        for (String part : List.of("papers", "people")) {
            past(driver -> run(driver, "MERGE (s:Schema {name: '" + part + "'}) SET s.version = 99"));
            requireRefused();
            past(driver -> run(driver, "MATCH (s:Schema {name: '" + part + "'}) DELETE s"));
        }
        try (Neo4jHouseStore store = open()) {
            assertThat(store.listHouses()).hasSize(1);
        }
    }

    private void requireRefused() {
        assertThatThrownBy(this::open).isInstanceOfSatisfying(ProblemException.class, e -> {
            assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
            assertThat(e.problems().get(0).said()).contains("newer program", "--data");
        });
    }
}
