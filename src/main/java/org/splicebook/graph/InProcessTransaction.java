package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.neo4j.driver.Query;
import org.neo4j.driver.Record;
import org.neo4j.driver.Result;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.internal.InternalRecord;
import org.neo4j.driver.internal.summary.InternalSummaryCounters;
import org.neo4j.graphdb.Label;
import org.neo4j.graphdb.QueryStatistics;
import org.neo4j.graphdb.Transaction;

/**
 * A transaction of the embedded database that takes statements as one of the driver does, so that all work on houses is written once.
 * Parameters are texts, numbers, truth values, moments, bytes, and lists and maps of these.
 *
 * @param tx the transaction, which its maker commits and closes
 * @param changed the houses and properties that it changes
 */
record InProcessTransaction(Transaction tx, Set<String> changed) implements TransactionContext {
    InProcessTransaction(Transaction tx) {
        this(tx, new HashSet<>());
    }

    /** Notes, where the transaction is of this process, what it changes. */
    static void changes(TransactionContext tx, String what) {
        if (tx instanceof InProcessTransaction here) {
            here.changed.add(what);
        }
    }

    /** Waits, where the transaction is of this process, until nobody writes a node, and lets nobody write it until the transaction ends. */
    static void hold(TransactionContext tx, String label, String key, String value) {
        if (tx instanceof InProcessTransaction here) {
            InProcessFaults.said(() -> {
                Optional.ofNullable(here.tx.findNode(Label.label(label), key, value))
                        .ifPresent(here.tx::acquireReadLock);
                return true;
            });
        }
    }

    @Override
    public Result run(String cypher, Map<String, Object> parameters) {
        return InProcessFaults.said(() -> {
            try (org.neo4j.graphdb.Result found = tx.execute(cypher, parameters)) {
                List<String> keys = List.copyOf(found.columns());
                List<Record> rows = new ArrayList<>();
                while (found.hasNext()) {
                    rows.add(record(keys, found.next()));
                }
                return new InProcessResult(cypher, keys, rows, counters(found.getQueryStatistics()));
            }
        });
    }

    private static Record record(List<String> keys, Map<String, Object> row) {
        List<Value> values = new ArrayList<>(keys.size());
        keys.forEach(k -> values.add(InProcessValues.value(row.get(k))));
        return new InternalRecord(keys, values);
    }

    private static InternalSummaryCounters counters(QueryStatistics s) {
        return new InternalSummaryCounters(
                s.getNodesCreated(),
                s.getNodesDeleted(),
                s.getRelationshipsCreated(),
                s.getRelationshipsDeleted(),
                s.getPropertiesSet(),
                s.getLabelsAdded(),
                s.getLabelsRemoved(),
                s.getIndexesAdded(),
                s.getIndexesRemoved(),
                s.getConstraintsAdded(),
                s.getConstraintsRemoved(),
                s.getSystemUpdates());
    }

    @Override
    public Result run(String cypher, Value parameters) {
        return run(cypher, parameters.asMap());
    }

    @Override
    public Result run(String cypher, Record parameters) {
        return run(cypher, parameters.asMap());
    }

    @Override
    public Result run(String cypher) {
        return run(cypher, Map.of());
    }

    @Override
    public Result run(Query query) {
        return run(query.text(), query.parameters().asMap());
    }
}
