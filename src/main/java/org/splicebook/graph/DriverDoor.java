package org.splicebook.graph;

import java.time.Duration;
import java.util.Collection;
import java.util.Map;
import java.util.function.Function;
import org.neo4j.driver.AccessMode;
import org.neo4j.driver.Driver;
import org.neo4j.driver.Session;
import org.neo4j.driver.SessionConfig;
import org.neo4j.driver.TransactionConfig;
import org.neo4j.driver.TransactionContext;

/**
 * The way in over Bolt.
 *
 * @param driver the driver, closed by whoever made it
 */
record DriverDoor(Driver driver) implements Door {
    private static final int AT_ONCE = 32;

    @Override
    public <T> T read(Duration limit, Function<TransactionContext, T> work) {
        try (Session session = session(driver, AccessMode.READ)) {
            return session.executeRead(work::apply, limited(limit));
        }
    }

    @Override
    public <T> T write(Duration limit, Function<TransactionContext, T> work) {
        try (Session session = session(driver, AccessMode.WRITE)) {
            return session.executeWrite(work::apply, limited(limit));
        }
    }

    /** The server's processors are not known here: as many as come, short of all that this server would answer at once. */
    @Override
    public int questionsAtOnce() {
        return AT_ONCE;
    }

    @Override
    public void index(Collection<Indexed> wanted) {
        try (Session session = session(driver, AccessMode.WRITE)) {
            // Each by itself: schema statements need that.
            wanted.forEach(i -> session.run(i.cypher()).consume());
            // An index that is still being filled is not used, and a question would look through every house.
            session.run("CALL db.awaitIndexes($seconds)", Map.of("seconds", FILLED.toSeconds()))
                    .consume();
        }
    }

    @Override
    public void close() {
        // The driver is not ours.
    }

    /**
     * {@return a session that sees what was written over this driver before, also where a cluster answers it from another member than took
     * the write}
     */
    static Session session(Driver driver, AccessMode mode) {
        return driver.session(SessionConfig.builder()
                .withDefaultAccessMode(mode)
                .withBookmarkManager(driver.executableQueryBookmarkManager())
                .build());
    }

    private static TransactionConfig limited(Duration limit) {
        return TransactionConfig.builder().withTimeout(limit).build();
    }
}
