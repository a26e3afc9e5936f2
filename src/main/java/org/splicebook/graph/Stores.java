package org.splicebook.graph;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.AuthTokens;
import org.neo4j.driver.Config;
import org.neo4j.driver.Driver;
import org.neo4j.driver.GraphDatabase;
import org.neo4j.driver.Logging;
import org.neo4j.driver.NotificationConfig;
import org.neo4j.driver.exceptions.AuthenticationException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.RecordText;
import org.splicebook.wiring.Wiring;

/** Opens stores: embedded in this process, or on a server. */
public final class Stores {
    private static final String QUERIES = "queries";
    private static final int RETRY_SECONDS = 10;

    private Stores() {}

    /**
     * Opens the store in a data folder, making it where there is none. The data folder's own folder {@code queries}, if there is one, adds
     * questions.
     *
     * @throws ProblemException with {@code STORE_AWAY} when another process has the folder or the database does not start
     */
    public static Neo4jHouseStore embedded(
            Path folder, RecordText text, Clock clock, Function<House, Wiring> derivation) {
        return embedded(folder, text, clock, derivation, List.of());
    }

    /**
     * The same.
     *
     * @param queries further folders of questions
     */
    public static Neo4jHouseStore embedded(
            Path folder, RecordText text, Clock clock, Function<House, Wiring> derivation, List<Path> queries) {
        List<Path> folders = new ArrayList<>(queries);
        if (Files.isDirectory(folder.resolve(QUERIES))) {
            folders.add(folder.resolve(QUERIES));
        }
        try {
            return opened(EmbeddedNeo4j.start(folder), text, clock, derivation, folders);
        } catch (ProblemException e) {
            if (!(e.getCause() instanceof AuthenticationException)) {
                throw e;
            }
            // The file holds another secret than the database's: whoever has the folder may give a new one.
            EmbeddedNeo4j.forgetSecret(folder);
            return opened(EmbeddedNeo4j.start(folder), text, clock, derivation, folders);
        }
    }

    private static Neo4jHouseStore opened(
            EmbeddedNeo4j neo4j, RecordText text, Clock clock, Function<House, Wiring> derivation, List<Path> queries) {
        try {
            Neo4jHouseStore store = open(
                    driver(neo4j.uri(), EmbeddedNeo4j.USER, neo4j.secret(), RETRY_SECONDS),
                    text,
                    clock,
                    derivation,
                    queries,
                    neo4j);
            neo4j.finished();
            return store;
        } catch (RuntimeException e) {
            neo4j.close();
            throw e;
        }
    }

    /**
     * Opens the store on a server or cluster, Neo4j 5.26 or newer.
     *
     * @param uri where it is: {@code neo4j://}, {@code bolt://}, or these with {@code +s}
     * @throws ProblemException with {@code STORE_AWAY} when it cannot be reached or refuses user and password
     */
    public static Neo4jHouseStore server(
            URI uri, String user, String password, RecordText text, Clock clock, Function<House, Wiring> derivation) {
        return server(uri, user, password, text, clock, derivation, List.of());
    }

    /**
     * The same.
     *
     * @param queries further folders of questions
     */
    public static Neo4jHouseStore server(
            URI uri,
            String user,
            String password,
            RecordText text,
            Clock clock,
            Function<House, Wiring> derivation,
            List<Path> queries) {
        return server(uri, user, password, text, clock, derivation, queries, RETRY_SECONDS);
    }

    /**
     * The same.
     *
     * @param retrySeconds how long what failed for a passing reason is tried again
     */
    static Neo4jHouseStore server(
            URI uri,
            String user,
            String password,
            RecordText text,
            Clock clock,
            Function<House, Wiring> derivation,
            List<Path> queries,
            int retrySeconds) {
        Driver driver;
        try {
            driver = driver(uri, user, password, retrySeconds);
        } catch (IllegalArgumentException e) {
            ProblemException p = new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "The address " + uri + " is not one of a database: " + e.getMessage() + ".",
                    "Give one such as neo4j+s://host:7687."));
            p.initCause(e);
            throw p;
        }
        return open(driver, text, clock, derivation, queries, null);
    }

    private static Neo4jHouseStore open(
            Driver driver,
            RecordText text,
            Clock clock,
            Function<House, Wiring> derivation,
            List<Path> queries,
            @Nullable EmbeddedNeo4j embedded) {
        try {
            driver.verifyConnectivity();
            return new Neo4jHouseStore(driver, text, clock, derivation, queries, embedded);
        } catch (Neo4jException e) {
            driver.close();
            throw Transactions.problem(e);
        } catch (RuntimeException e) {
            driver.close();
            throw e;
        }
    }

    private static Driver driver(URI uri, String user, String password, int retrySeconds) {
        Config config = Config.builder()
                .withLogging(Logging.slf4j())
                .withNotificationConfig(NotificationConfig.disableAllConfig())
                .withTelemetryDisabled(true)
                .withMaxTransactionRetryTime(retrySeconds, TimeUnit.SECONDS)
                .withConnectionTimeout(10, TimeUnit.SECONDS)
                .withConnectionAcquisitionTimeout(30, TimeUnit.SECONDS)
                .build();
        return GraphDatabase.driver(uri, AuthTokens.basic(user, password), config);
    }
}
