package org.splicebook.graph;

import java.time.Duration;
import java.util.Collection;
import java.util.function.Function;
import org.neo4j.driver.TransactionContext;

/** A way into the database. Work that fails for a passing reason is run again; what else goes wrong is thrown as the driver's exceptions. */
interface Door extends AutoCloseable {
    /** How long what failed for a passing reason is tried again, where nothing else is said. */
    Duration RETRIED = Duration.ofSeconds(10);

    /** How long indexes over what is stored may take to fill. */
    Duration FILLED = Duration.ofMinutes(5);

    /**
     * Runs work in a transaction that only reads.
     *
     * @param limit after how long it is stopped
     */
    <T> T read(Duration limit, Function<TransactionContext, T> work);

    /**
     * Runs work in a transaction that may write: all of it happens or, when the work throws, nothing.
     *
     * @param limit after how long it is stopped
     */
    <T> T write(Duration limit, Function<TransactionContext, T> work);

    /** Makes the constraints and indexes that are missing, and returns when all of them can be used. */
    void index(Collection<Indexed> wanted);

    /** {@return how many questions may run at once without taking the processors from each other} */
    int questionsAtOnce();

    @Override
    void close();
}
