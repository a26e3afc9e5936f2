package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.neo4j.driver.AuthToken;
import org.neo4j.driver.AuthTokens;
import org.neo4j.driver.Driver;
import org.neo4j.driver.GraphDatabase;
import org.neo4j.driver.Session;
import org.neo4j.driver.exceptions.AuthenticationException;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;

class EmbeddedNeo4jIT {
    @TempDir
    Path folder;

    @Test
    void onlyWhoKnowsTheSecretIsLetIn() throws IOException {
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder)) {
            assertThat(InetAddress.getByName(neo4j.uri().getHost()).isLoopbackAddress())
                    .isTrue();
            assertRefused(neo4j, AuthTokens.none());
            assertRefused(neo4j, AuthTokens.basic("neo4j", "neo4j"));
            assertRefused(neo4j, AuthTokens.basic("neo4j", ""));
            for (int i = 0; i < 6; i++) {
                assertRefused(neo4j, AuthTokens.basic("neo4j", "guess-number-" + i));
            }
            // Guesses do not lock out who knows it.
            assertAccepted(neo4j);
            Path file = EmbeddedNeo4j.secretFile(folder);
            assertThat(Files.readString(file).strip()).isEqualTo(neo4j.secret()).hasSize(64);
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void theSecretIsAnotherInEveryFolderAndStaysOverARestart() throws IOException {
        String first;
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder.resolve("a"))) {
            first = neo4j.secret();
            neo4j.finished();
        }
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder.resolve("a"))) {
            assertThat(neo4j.secret()).isEqualTo(first);
            assertAccepted(neo4j);
        }
        Files.delete(EmbeddedNeo4j.secretFile(folder.resolve("a")));
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder.resolve("a"))) {
            assertThat(neo4j.secret()).isNotEqualTo(first);
            assertAccepted(neo4j);
            assertRefused(neo4j, AuthTokens.basic("neo4j", first));
        }
    }

    @Test
    void aFolderInUseIsRefusedAndTheProcessThatHasItIsNamed() {
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder)) {
            assertThat(neo4j.uri().getPort()).isPositive();
            assertThatThrownBy(() -> EmbeddedNeo4j.start(folder)).isInstanceOfSatisfying(ProblemException.class, e -> {
                assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
                assertThat(e.problems().get(0).message())
                        .contains("process " + ProcessHandle.current().pid());
            });
        }
    }

    @Test
    void cypherReadsNoFileAndNoAddressAndCallsFewProcedures() throws IOException {
        Files.writeString(folder.resolve("loot.csv"), "a,b\n");
        try (EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder);
                Driver driver = driver(neo4j, AuthTokens.basic("neo4j", neo4j.secret()));
                Session session = driver.session()) {
            for (String url : new String[] {
                "file:///loot.csv", folder.resolve("loot.csv").toUri().toString(), "http://127.0.0.1:9/x.csv"
            }) {
                assertThatThrownBy(() -> session.run("LOAD CSV FROM '" + url + "' AS line RETURN line")
                                .list())
                        .as(url)
                        .isInstanceOf(Neo4jException.class);
            }
            for (String call : new String[] {
                "CALL dbms.listConfig()", "CALL dbms.setConfigValue('a', 'b')", "CALL dbms.killConnection('bolt-1')"
            }) {
                assertThatThrownBy(() -> session.run(call).list()).as(call).isInstanceOf(ClientException.class);
            }
            assertThat(session.run("CALL db.labels()").list()).isEmpty();
        }
    }

    @Test
    void closingIsQuick() {
        EmbeddedNeo4j neo4j = EmbeddedNeo4j.start(folder);
        long start = System.nanoTime();
        neo4j.close();
        neo4j.close();
        assertThat(Duration.ofNanos(System.nanoTime() - start)).isLessThan(Duration.ofSeconds(5));
    }

    private static void assertRefused(EmbeddedNeo4j neo4j, AuthToken token) {
        try (Driver driver = driver(neo4j, token)) {
            assertThatThrownBy(driver::verifyConnectivity)
                    .isInstanceOfAny(AuthenticationException.class, ClientException.class);
            assertThatThrownBy(() ->
                            driver.executableQuery("MATCH (n) RETURN count(n)").execute())
                    .isInstanceOf(Neo4jException.class);
        }
    }

    private static void assertAccepted(EmbeddedNeo4j neo4j) {
        try (Driver driver = driver(neo4j, AuthTokens.basic("neo4j", neo4j.secret()))) {
            driver.verifyConnectivity();
        }
    }

    private static Driver driver(EmbeddedNeo4j neo4j, AuthToken token) {
        return GraphDatabase.driver(neo4j.uri(), token);
    }
}
