package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.Revision;

/**
 * The fast way in for many new houses. Some houses share a transaction, and some transactions run side by side; when one of these fails, the houses of the earlier ones are
 * taken away again. A process that is killed meanwhile leaves whole houses only, those of the transactions that were done.
 */
final class BulkLoad {
    /** As many relationships as are sent at once: enough to be fast, few enough for the memory of one transaction. */
    private static final int TIES_AT_ONCE = 8_000;

    /** As many houses as a thread takes at once. */
    private static final int TAKEN_AT_ONCE = 4;

    /** More writers than these would only wait for each other. */
    private static final int MOST_WRITERS = 4;

    /** A house that is ready to be stored. */
    private record Ready(Ledger.Kept kept, GraphRows rows) {}

    private final Transactions transactions;
    private final BulkWriter writer;
    private final Projection projection;

    BulkLoad(Transactions transactions, BulkWriter writer, Projection projection) {
        this.transactions = transactions;
        this.writer = writer;
        this.projection = projection;
    }

    /**
     * Loads.
     *
     * @param first makes a house's first revision
     */
    Result<List<Revision>> load(Collection<House> houses, BiFunction<House, String, Ledger.Kept> first) {
        List<Problem> problems = taken(houses);
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        String token = Secret.random();
        List<Revision> done = Collections.synchronizedList(new ArrayList<>());
        List<House> order = List.copyOf(houses);
        List<Future<?>> parts = new ArrayList<>();
        AtomicBoolean isOver = new AtomicBoolean();
        int writers = Math.min(MOST_WRITERS, Runtime.getRuntime().availableProcessors());
        ExecutorService pool = Executors.newFixedThreadPool(writers);
        try {
            for (int i = 0; i < order.size(); i += TAKEN_AT_ONCE) {
                List<House> some = order.subList(i, Math.min(order.size(), i + TAKEN_AT_ONCE));
                parts.add(pool.submit(() -> {
                    if (!isOver.get()) {
                        part(some, h -> first.apply(h, token), done);
                    }
                }));
            }
            for (Future<?> part : parts) {
                part.get();
            }
            Map<String, Revision> byHouse = new HashMap<>();
            done.forEach(r -> byHouse.put(r.house(), r));
            return Result.ok(order.stream()
                    .map(h -> Objects.requireNonNull(byHouse.get(h.id())))
                    .toList());
        } catch (ExecutionException e) {
            end(pool, isOver);
            takeBack(order, token);
            if (e.getCause() instanceof ProblemException p) {
                return new Result.Failed<>(p.problems());
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            end(pool, isOver);
            takeBack(order, token);
            return Result.failed(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "Loading was interrupted.",
                    "Nothing was stored. Load again."));
        } finally {
            pool.shutdown();
        }
    }

    /**
     * Waits until no writer writes any more, so that what they have done can be taken back. None is interrupted: that would close the
     * files under the database.
     */
    private static void end(ExecutorService pool, AtomicBoolean isOver) {
        isOver.set(true);
        pool.shutdown();
        boolean wasInterrupted = Thread.interrupted();
        boolean isEnded = false;
        while (!isEnded) {
            try {
                isEnded = pool.awaitTermination(1, TimeUnit.MINUTES);
            } catch (InterruptedException e) {
                wasInterrupted = true;
            }
        }
        if (wasInterrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void part(List<House> houses, Function<House, Ledger.Kept> first, List<Revision> done) {
        List<Ready> ready = new ArrayList<>();
        int ties = 0;
        for (House h : houses) {
            Ready one = ready(first.apply(h), projection.derive(h));
            ready.add(one);
            ties += one.rows().ties().size();
            if (ties >= TIES_AT_ONCE) {
                store(ready, done);
                ties = 0;
            }
        }
        store(ready, done);
    }

    private Ready ready(Ledger.Kept kept, Projection.Derived derived) {
        return new Ready(kept, projection.of(derived, kept.revision()));
    }

    private void store(List<Ready> ready, List<Revision> done) {
        if (ready.isEmpty()) {
            return;
        }
        writer.write(
                ready.stream().map(Ready::kept).toList(),
                ready.stream().map(Ready::rows).toList());
        ready.forEach(r -> done.add(r.kept().revision()));
        ready.clear();
    }

    private List<Problem> taken(Collection<House> houses) {
        Set<String> ids = new HashSet<>();
        List<Problem> problems = new ArrayList<>();
        for (House h : houses) {
            if (!ids.add(h.id())) {
                problems.add(problem(ProblemKind.DUPLICATE, h.id(), "The house " + h.id() + " is given twice."));
            }
        }
        List<String> there = transactions.read(tx -> tx.run(
                        "UNWIND $ids AS id MATCH (l:Ledger {house: id}) RETURN id ORDER BY id",
                        Map.of("ids", List.copyOf(ids)))
                .list(r -> r.get("id").asString()));
        there.forEach(id -> problems.add(
                problem(ProblemKind.CONFLICT, id, "The house " + id + " is in the store, or was and was deleted.")));
        return problems;
    }

    /** Looks for what is to be taken back in the store itself: of a transaction that failed it may not be known whether it was done. */
    private void takeBack(List<House> houses, String token) {
        List<String> keys = houses.stream().map(h -> h.id() + "/1").toList();
        List<String> stored = transactions.read(tx -> tx.run(
                        "UNWIND $keys AS key MATCH (r:Revision {key: key}) WHERE r.token = $token RETURN r.house AS house",
                        Map.of("keys", keys, "token", token))
                .list(r -> r.get("house").asString()));
        for (String house : stored) {
            transactions.write(tx -> {
                boolean isOurs = Ledger.lock(tx, house)
                        .filter(k -> k.token().equals(token))
                        .isPresent();
                if (isOurs) {
                    GraphWriter.remove(tx, house);
                    tx.run(
                                    "MATCH (l:Ledger {house: $house})-[:HAS]->(r:Revision) DETACH DELETE l, r",
                                    Map.of("house", house))
                            .consume();
                }
                return isOurs;
            });
        }
    }

    private static Problem problem(ProblemKind kind, String id, String message) {
        return Problem.error(
                kind, Where.field(id), message, "Nothing was stored. Leave it out, or store it by itself.");
    }
}
