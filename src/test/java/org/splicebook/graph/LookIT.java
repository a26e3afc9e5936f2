package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.answer.Listing;
import org.splicebook.problem.ProblemKind;

@ExtendWith(HouseStoreContract.Context.class)
class LookIT {
    private Neo4jHouseStore store;
    private OneDatabase database;

    @BeforeEach
    void begin(ExtensionContext context) {
        database = OneDatabase.embedded(context);
        database.empty();
        store = database.store();
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
    }

    @Test
    void ownerLooksAtTheGraph() {
        Listing found = store.look("MATCH (b:Breaker {house: 'alder'}) RETURN b.name AS name, b ORDER BY name", 100)
                .get();
        assertThat(found.columns()).containsExactly("name", "b");
        assertThat(found.rows())
                .isNotEmpty()
                .allSatisfy(r -> assertThat(r.get(1).toString()).contains("Breaker"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "CREATE (n:X) RETURN n",
                "MATCH (n) DETACH DELETE n",
                "MATCH (h:House) SET h.title = 'x' RETURN h",
                "LOAD CSV FROM 'file:///etc/passwd' AS line RETURN line",
                "LOAD CSV FROM 'http://127.0.0.1:1/x' AS line RETURN line",
                "CALL db.labels() YIELD label RETURN label",
                "MATCH (n) CALL { WITH n SET n.x = 1 } IN TRANSACTIONS RETURN count(*)",
                "SHOW USERS",
                "SHOW TRANSACTIONS",
                "TERMINATE TRANSACTIONS 'neo4j-transaction-1'",
                "ALTER USER neo4j SET PASSWORD 'x2345678'",
                "CREATE INDEX x FOR (n:X) ON (n.x)",
                "DROP DATABASE neo4j",
                "EXPLAIN MATCH (n) RETURN n",
                "PROFILE MATCH (n) RETURN n",
                "RETURN 1; MATCH (n) DELETE n",
                "not a query",
                ""
            })
    void whatDoesMoreThanLookIsRefusedAndChangesNothing(String cypher) {
        long before = count();
        var tried = store.look(cypher, 100);
        assertThat(tried.isOk()).isFalse();
        assertThat(tried.problems()).extracting(p -> p.kind()).isSubsetOf(ProblemKind.REFUSED, ProblemKind.SYNTAX);
        assertThat(count()).isEqualTo(before);
    }

    @Test
    void rowsAndTimeAreLimited() {
        assertThat(store.look("UNWIND range(1, 100) AS i RETURN i", 100).isOk()).isTrue();
        assertThat(store.look("UNWIND range(1, 101) AS i RETURN i", 100).problems())
                .extracting(p -> p.kind())
                .containsExactly(ProblemKind.TOO_LARGE);
        assertThat(store.look(
                                "UNWIND range(1, 100000) AS i UNWIND range(1, 100000) AS j UNWIND range(1, 100000) AS k"
                                        + " RETURN count(*)",
                                100)
                        .problems())
                .extracting(p -> p.kind())
                .containsExactly(ProblemKind.TOO_SLOW);
    }

    private long count() {
        return database.tool()
                .executableQuery("MATCH (n) RETURN count(n) AS n")
                .execute()
                .records()
                .get(0)
                .get("n")
                .asLong();
    }
}
