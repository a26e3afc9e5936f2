package org.splicebook.graph;

import java.time.Duration;
import java.util.Collection;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.function.Supplier;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.exceptions.TransientException;
import org.neo4j.graphdb.Label;
import org.neo4j.graphdb.Transaction;
import org.neo4j.graphdb.schema.IndexDefinition;
import org.neo4j.graphdb.schema.IndexType;
import org.neo4j.graphdb.schema.Schema;
import org.neo4j.internal.kernel.api.connectioninfo.ClientConnectionInfo;
import org.neo4j.internal.kernel.api.security.AccessMode;
import org.neo4j.internal.kernel.api.security.AuthSubject;
import org.neo4j.internal.kernel.api.security.LoginContext;
import org.neo4j.internal.kernel.api.security.SecurityContext;
import org.neo4j.kernel.api.KernelTransaction;
import org.neo4j.kernel.impl.coreapi.InternalTransaction;
import org.neo4j.kernel.internal.GraphDatabaseAPI;

/**
 * The way into the embedded database without a socket between: a statement takes tenths of a millisecond instead of some milliseconds. Work
 * runs on threads of its own that nobody interrupts: an interrupted thread would close the database's files under it.
 */
final class InProcessDoor implements Door {
    private static final Duration FIRST_WAIT = Duration.ofMillis(20);

    private final GraphDatabaseAPI database;
    private final Condition condition;
    private final Recall recall;
    private final LoginContext reader;
    private final ExecutorService threads;

    InProcessDoor(GraphDatabaseAPI database, Condition condition, Recall recall) {
        this.recall = recall;
        this.database = database;
        this.condition = condition;
        this.reader = new SecurityContext(
                AuthSubject.AUTH_DISABLED,
                AccessMode.Static.READ,
                ClientConnectionInfo.EMBEDDED_CONNECTION,
                database.databaseName());
        AtomicInteger number = new AtomicInteger();
        this.threads = Executors.newCachedThreadPool(work -> {
            Thread thread = new Thread(work, "splicebook-store-" + number.incrementAndGet());
            thread.setDaemon(true);
            return thread;
        });
    }

    @Override
    public <T> T read(Duration limit, Function<TransactionContext, T> work) {
        return apart(() -> tried(reader, limit, work));
    }

    @Override
    public <T> T write(Duration limit, Function<TransactionContext, T> work) {
        return apart(() -> {
            condition.requireRoom();
            return tried(LoginContext.AUTH_DISABLED, limit, work);
        });
    }

    /** Without statements: planning some fifty of them takes longer than starting the database. */
    @Override
    public void index(Collection<Indexed> wanted) {
        apart(() -> InProcessFaults.said(() -> {
            try (Transaction tx = database.beginTx()) {
                Schema schema = tx.schema();
                Set<String> there = new HashSet<>();
                schema.getIndexes().forEach(i -> there.add(i.getName()));
                schema.getIndexes().forEach(InProcessDoor::dropUnused);
                wanted.stream().filter(i -> !there.contains(i.name())).forEach(i -> make(schema, i));
                tx.commit();
            }
            try (Transaction tx = database.beginTx()) {
                tx.schema().awaitIndexesOnline(FILLED.toSeconds(), TimeUnit.SECONDS);
            }
            return true;
        }));
    }

    /** Nothing is sought by the type of a relationship alone, and every relationship would be entered there. */
    private static void dropUnused(IndexDefinition index) {
        if (index.getIndexType() == IndexType.LOOKUP && index.isRelationshipIndex()) {
            index.drop();
        }
    }

    private static void make(Schema schema, Indexed wanted) {
        Label label = Label.label(wanted.label());
        if (wanted.isUnique()) {
            schema.constraintFor(label)
                    .assertPropertyIsUnique(wanted.property())
                    .withName(wanted.name())
                    .create();
        } else {
            schema.indexFor(label).on(wanted.property()).withName(wanted.name()).create();
        }
    }

    private <T> T tried(LoginContext who, Duration limit, Function<TransactionContext, T> work) {
        long end = System.nanoTime() + RETRIED.toNanos();
        Duration wait = FIRST_WAIT;
        while (true) {
            try {
                return once(who, limit, work);
            } catch (TransientException e) {
                if (System.nanoTime() > end || condition.stopped().isPresent()) {
                    throw condition.said(e);
                }
                pause(wait);
                wait = wait.multipliedBy(2);
            } catch (RuntimeException e) {
                throw condition.said(e);
            }
        }
    }

    private <T> T once(LoginContext who, Duration limit, Function<TransactionContext, T> work) {
        try (InternalTransaction tx = InProcessFaults.said(() -> database.beginTransaction(
                KernelTransaction.Type.EXPLICIT,
                who,
                ClientConnectionInfo.EMBEDDED_CONNECTION,
                limit.toMillis(),
                TimeUnit.MILLISECONDS))) {
            InProcessTransaction context = new InProcessTransaction(tx);
            T done = work.apply(context);
            return recall.committing(
                    context.changed(),
                    () -> InProcessFaults.said(() -> {
                        tx.commit();
                        return done;
                    }));
        }
    }

    private static void pause(Duration wait) {
        try {
            Thread.sleep(wait.toMillis());
        } catch (InterruptedException e) {
            throw new IllegalStateException("A thread of the store was interrupted.", e);
        }
    }

    private <T> T apart(Supplier<T> work) {
        Future<T> future;
        try {
            future = threads.submit(work::get);
        } catch (RejectedExecutionException e) {
            throw new IllegalStateException("The store is closed.", e);
        }
        boolean wasInterrupted = false;
        try {
            while (true) {
                try {
                    return future.get();
                } catch (InterruptedException e) {
                    wasInterrupted = true; // It ends by itself, at its limit at the latest.
                } catch (ExecutionException e) {
                    throw cause(e);
                }
            }
        } finally {
            if (wasInterrupted) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private static RuntimeException cause(ExecutionException e) {
        if (e.getCause() instanceof Error error) {
            throw error;
        }
        return e.getCause() instanceof RuntimeException thrown ? thrown : new IllegalStateException(e.getCause());
    }

    @Override
    public int questionsAtOnce() {
        return Math.max(2, Runtime.getRuntime().availableProcessors());
    }

    /** Takes no further work, and waits for what is being done. */
    @Override
    public void close() {
        threads.shutdown();
        boolean wasInterrupted = Thread.interrupted();
        try {
            boolean unused = threads.awaitTermination(RETRIED.toSeconds(), TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            wasInterrupted = true;
        }
        if (wasInterrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
