package org.splicebook.graph;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.store.Health;

/** Finds out how a store is. Whoever asks does not wait long, also where the database hangs; all who ask at once wait for one look. */
final class Checkup {
    private static final Duration PATIENCE = Duration.ofSeconds(5);

    private final Transactions transactions;
    private final @Nullable Condition condition;
    private final String kind;
    private CompletableFuture<Health> look = CompletableFuture.completedFuture(new Health(false, "", "", 0, 0, ""));

    /**
     * Looks at a store.
     *
     * @param transactions over the database
     * @param condition of the database in this process; null for a server
     */
    Checkup(Transactions transactions, @Nullable Condition condition) {
        this.transactions = transactions;
        this.condition = condition;
        this.kind = condition == null ? "server" : "embedded";
    }

    Health health() {
        try {
            return begun().get(PATIENCE.toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            return down("The database does not answer within " + PATIENCE.toSeconds()
                    + " s. Look whether its machine is overloaded, or it hangs.");
        } catch (ExecutionException e) {
            return down("The database cannot be asked: " + e.getCause() + ".");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return down("Interrupted while the database was asked.");
        }
    }

    private synchronized CompletableFuture<Health> begun() {
        if (look.isDone()) {
            look = CompletableFuture.supplyAsync(this::look, Checkup::apart);
        }
        return look;
    }

    private static void apart(Runnable work) {
        Thread thread = new Thread(work, "splicebook-health");
        thread.setDaemon(true);
        thread.start();
    }

    private Health look() {
        Optional<Problem> stopped = Optional.ofNullable(condition).flatMap(Condition::stopped);
        Optional<Problem> cramped = Optional.ofNullable(condition).flatMap(Condition::cramped);
        try {
            long start = System.nanoTime();
            transactions.ping();
            long micros = (System.nanoTime() - start) / 1000;
            String version = transactions.read(Transactions::version);
            int houses = transactions.read(Ledger::houses).size();
            String wrong = stopped.or(() -> cramped).map(Problem::said).orElse("");
            return new Health(stopped.isEmpty(), kind, version, houses, micros, wrong);
        } catch (ProblemException e) {
            return down(stopped.orElse(e.problems().get(0)).said());
        }
    }

    private Health down(String wrong) {
        return new Health(false, kind, "", 0, 0, wrong);
    }
}
