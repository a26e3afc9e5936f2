package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.Neo4jException;

/** The way in without a socket does what the driver does; that whole stores work over it is held by the contract of stores. */
@ExtendWith(HouseStoreContract.Context.class)
class InProcessDoorIT {
    private static final Duration LONG = Duration.ofSeconds(30);

    private Door door;
    private Door driver;

    @BeforeEach
    void begin(ExtensionContext context) {
        OneDatabase database = OneDatabase.embedded(context);
        database.empty();
        door = database.store().door();
        driver = new DriverDoor(database.store().driver());
        assertThat(door).isInstanceOf(InProcessDoor.class);
    }

    private static <T> T write(Door door, Function<TransactionContext, T> work) {
        return door.write(LONG, work);
    }

    private long count() {
        return door.read(
                LONG,
                tx -> tx.run("MATCH (n:Tried) RETURN count(*) AS n")
                        .single()
                        .get("n")
                        .asLong());
    }

    @Test
    void whatIsReadIsWhatTheDriverReads() {
        write(
                door,
                tx -> tx.run(
                                "CREATE (a:Tried:Part {name: 'a', list: ['x', 'y'], none: [], bytes: $bytes})"
                                        + "-[:NEXT {conductor: 'hot', n: 2}]->(:Tried {at: datetime('2026-03-14T12:00:00.000001Z')})",
                                Map.of("bytes", new byte[] {1, 2}))
                        .consume());
        String everything = "MATCH (a:Tried {name: 'a'})-[r]->(b) RETURN a, r, b, a.list AS list, a.none AS none,"
                + " a.bytes AS bytes, b.at AS at, a.unknown AS unknown, 1 AS whole, 1.5 AS part, true AS sure,"
                + " date('2026-03-14') AS day, duration('P1M2DT3.5S') AS took, point({x: 1, y: 2}) AS where,"
                + " [1, [2, null]] AS nested, {k: [a.name, {m: r.n}]} AS map, collect(r) AS ways";
        Record here = door.read(LONG, tx -> tx.run(everything).single());
        Record there = driver.read(LONG, tx -> tx.run(everything).single());
        assertThat(here.keys()).isEqualTo(there.keys());
        for (String key : there.keys()) {
            assertThat(said(here.get(key))).as(key).isEqualTo(said(there.get(key)));
            assertThat(here.get(key).type()).as(key).isEqualTo(there.get(key).type());
        }
    }

    private static String said(Value v) {
        return switch (v.type().name()) {
            case "NODE" ->
                v.asNode().elementId()
                        + v.asNode().labels()
                        + new TreeMap<>(v.asNode().asMap(InProcessDoorIT::said));
            case "RELATIONSHIP" ->
                v.asRelationship().elementId()
                        + v.asRelationship().type()
                        + v.asRelationship().startNodeElementId()
                        + v.asRelationship().endNodeElementId()
                        + new TreeMap<>(v.asRelationship().asMap(InProcessDoorIT::said));
            case "BYTES" -> Arrays.toString(v.asByteArray());
            case "LIST OF ANY?" -> v.asList(InProcessDoorIT::said).toString();
            default -> v.toString();
        };
    }

    @Test
    void countsTellWhatWasChanged() {
        assertThat(write(
                                door,
                                tx -> tx.run("CREATE (:Tried)-[:NEXT]->(:Tried)")
                                        .consume()
                                        .counters())
                        .nodesCreated())
                .isEqualTo(2);
        assertThat(write(
                                door,
                                tx -> tx.run("MATCH (:Tried)-[r]->() DELETE r")
                                        .consume()
                                        .counters())
                        .relationshipsDeleted())
                .isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "CREATE (:Tried)",
                "MATCH (n:Tried) SET n.name = 'b'",
                "MATCH (n:Tried) DETACH DELETE n",
                "CREATE INDEX tried FOR (n:Tried) ON (n.name)"
            })
    void whoReadsCannotWrite(String cypher) {
        write(door, tx -> tx.run("CREATE (:Tried {name: 'a'})").consume());
        assertThatThrownBy(() -> door.read(LONG, tx -> tx.run(cypher).consume()))
                .isInstanceOf(ClientException.class);
        List<String> names = door.read(
                LONG,
                tx -> tx.run("MATCH (n:Tried) RETURN n.name AS name")
                        .list(r -> r.get("name").asString()));
        assertThat(names).containsExactly("a");
    }

    @Test
    void whatTakesTooLongIsStopped() {
        assertThatThrownBy(() -> door.read(
                        Duration.ofMillis(300),
                        tx -> tx.run("UNWIND range(1, 100000) AS i UNWIND range(1, 100000) AS j RETURN count(*)")
                                .list()))
                .isInstanceOfSatisfying(
                        ClientException.class,
                        e -> assertThat(Asking.isTooSlow(e)).isTrue());
    }

    @Test
    void workThatThrowsLeavesNothing() {
        assertThatThrownBy(() -> write(door, tx -> {
                    tx.run("CREATE (:Tried)").consume();
                    throw new UnsupportedOperationException("of its own");
                }))
                .isInstanceOf(UnsupportedOperationException.class);
        assertThat(count()).isZero();
    }

    @Test
    void wrongCypherAndBrokenConstraintsAreTheDriversExceptions() {
        assertThatThrownBy(() -> door.read(LONG, tx -> tx.run("not a query").list()))
                .isInstanceOfSatisfying(
                        ClientException.class, e -> assertThat(e.code()).contains("SyntaxError"));
        assertThatThrownBy(() -> write(
                        door,
                        tx -> tx.run("UNWIND [1, 2] AS i CREATE (:House {key: 'twice'})")
                                .consume()))
                .isInstanceOfSatisfying(
                        Neo4jException.class, e -> assertThat(e.code()).contains("ConstraintValidationFailed"));
    }

    @Test
    void constraintsAndIndexesAreThoseOfTheDriver() {
        try {
            door.index(List.of(Indexed.unique("TriedHere", "key"), Indexed.plain("TriedHere", "kind")));
            driver.index(List.of(Indexed.unique("TriedThere", "key"), Indexed.plain("TriedThere", "kind")));
            assertThat(made("TriedHere", "INDEXES", "type, state, properties, owningConstraint"))
                    .hasSize(2)
                    .isEqualTo(made("TriedThere", "INDEXES", "type, state, properties, owningConstraint"));
            assertThat(made("TriedHere", "CONSTRAINTS", "type, properties, ownedIndex"))
                    .hasSize(1)
                    .isEqualTo(made("TriedThere", "CONSTRAINTS", "type, properties, ownedIndex"));
            // What is there stays as it is, whoever made it.
            door.index(List.of(Indexed.unique("TriedThere", "key"), Indexed.plain("TriedHere", "more")));
            assertThat(made("TriedThere", "CONSTRAINTS", "type")).hasSize(1);
            assertThat(made("TriedHere", "INDEXES", "type")).hasSize(3);
            write(door, tx -> tx.run("CREATE (:TriedHere {key: 'a'})").consume());
            assertThatThrownBy(() -> write(
                            door, tx -> tx.run("CREATE (:TriedHere {key: 'a'})").consume()))
                    .isInstanceOf(ClientException.class);
        } finally {
            write(door, tx -> tx.run("MATCH (n:TriedHere) DELETE n").consume());
            List.of(
                            "CONSTRAINT TriedHere_key",
                            "CONSTRAINT TriedThere_key",
                            "INDEX TriedHere_kind",
                            "INDEX TriedHere_more")
                    .forEach(this::drop);
            drop("INDEX TriedThere_kind");
        }
    }

    private List<String> made(String label, String what, String columns) {
        return driver.read(
                LONG,
                tx -> tx.run(
                                "SHOW " + what + " YIELD name, labelsOrTypes, " + columns
                                        + " WHERE labelsOrTypes = [$label] RETURN " + columns + " ORDER BY name",
                                Map.of("label", label))
                        .list(r -> r.asMap().toString().replace(label, "")));
    }

    private void drop(String what) {
        write(driver, tx -> tx.run("DROP " + what + " IF EXISTS").consume());
    }

    @Test
    void whoIsInterruptedHasStoredAllTheSameAndHarmsNobody() {
        for (int i = 0; i < 20; i++) {
            Thread.currentThread().interrupt();
            write(door, tx -> tx.run("CREATE (:Tried)").consume());
            assertThat(Thread.interrupted()).isTrue();
        }
        assertThat(count()).isEqualTo(20);
    }

    @Test
    void oneOfTwoThatWaitForEachOtherIsRunAgain() throws Exception {
        write(
                door,
                tx -> tx.run("CREATE (:Tried {name: 'a', n: 0}), (:Tried {name: 'b', n: 0})")
                        .consume());
        CyclicBarrier both = new CyclicBarrier(2);
        List<CompletableFuture<Void>> two = List.of(crossing("a", "b", both), crossing("b", "a", both));
        for (CompletableFuture<Void> one : two) {
            one.get(20, TimeUnit.SECONDS);
        }
        List<Integer> counted = door.read(
                LONG,
                tx -> tx.run("MATCH (n:Tried) RETURN n.n AS n")
                        .list(r -> r.get("n").asInt()));
        assertThat(counted).containsExactly(2, 2);
    }

    private CompletableFuture<Void> crossing(String first, String second, CyclicBarrier both) {
        boolean[] isAgain = new boolean[1];
        return CompletableFuture.runAsync(() -> write(door, tx -> {
            count(tx, first);
            if (!isAgain[0]) {
                isAgain[0] = true;
                try {
                    both.await(10, TimeUnit.SECONDS);
                } catch (Exception e) {
                    throw new IllegalStateException(e);
                }
            }
            count(tx, second);
            return true;
        }));
    }

    private static void count(TransactionContext tx, String name) {
        tx.run("MATCH (n:Tried {name: $name}) SET n.n = n.n + 1", Map.of("name", name))
                .consume();
    }
}
