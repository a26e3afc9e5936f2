package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.Revision;

/**
 * The fast way in for many new houses. Some houses share a transaction; when one of these fails, the houses of the earlier ones are
 * taken away again. A process that is killed meanwhile leaves whole houses only, those of the transactions that were done.
 */
final class BulkLoad {
    /** As many relationships as are sent at once: enough to be fast, few enough for the memory of one transaction. */
    private static final int TIES_AT_ONCE = 20_000;

    /** As many houses as are derived side by side. */
    private static final int DERIVED_AT_ONCE = 8;

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
        List<Revision> done = new ArrayList<>();
        List<Ready> ready = new ArrayList<>();
        List<House> order = List.copyOf(houses);
        try {
            for (int i = 0; i < order.size(); i += DERIVED_AT_ONCE) {
                order.subList(i, Math.min(order.size(), i + DERIVED_AT_ONCE)).parallelStream()
                        .map(h -> ready(first.apply(h, token), projection.derive(h)))
                        .toList()
                        .forEach(ready::add);
                if (ready.stream().mapToInt(r -> r.rows().ties().size()).sum() >= TIES_AT_ONCE) {
                    store(ready, done);
                }
            }
            store(ready, done);
            return Result.ok(List.copyOf(done));
        } catch (ProblemException e) {
            takeBack(done, token);
            return new Result.Failed<>(e.problems());
        } catch (RuntimeException e) {
            takeBack(done, token);
            throw e;
        }
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

    private void takeBack(List<Revision> done, String token) {
        for (Revision r : done) {
            transactions.write(tx -> {
                boolean isOurs = Ledger.lock(tx, r.house())
                        .filter(k -> k.token().equals(token))
                        .isPresent();
                if (isOurs) {
                    GraphWriter.remove(tx, r.house());
                    tx.run(
                                    "MATCH (l:Ledger {house: $house})-[:HAS]->(r:Revision) DETACH DELETE l, r",
                                    Map.of("house", r.house()))
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
