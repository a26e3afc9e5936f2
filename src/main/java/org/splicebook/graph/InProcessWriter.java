package org.splicebook.graph;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import org.eclipse.collections.api.factory.primitive.IntObjectMaps;
import org.eclipse.collections.api.factory.primitive.IntSets;
import org.eclipse.collections.api.map.primitive.MutableIntObjectMap;
import org.eclipse.collections.api.set.primitive.IntSet;
import org.neo4j.exceptions.KernelException;
import org.neo4j.internal.kernel.api.TokenWrite;
import org.neo4j.internal.kernel.api.Write;
import org.neo4j.internal.kernel.api.connectioninfo.ClientConnectionInfo;
import org.neo4j.internal.kernel.api.security.LoginContext;
import org.neo4j.kernel.api.KernelTransaction;
import org.neo4j.kernel.impl.coreapi.InternalTransaction;
import org.neo4j.kernel.internal.GraphDatabaseAPI;
import org.neo4j.values.storable.Value;
import org.neo4j.values.storable.Values;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * The embedded database's own way in: rows become nodes and relationships in this process, without a statement for each, and all properties
 * of one at once, since each that is set by itself is checked against every constraint by itself.
 */
final class InProcessWriter implements BulkWriter {
    private static final int LIMIT_MINUTES = 4;
    private static final IntSet NO_LABELS = IntSets.immutable.empty();

    private final GraphDatabaseAPI database;
    private final Condition condition;
    private final Recall recall;

    /** The database's numbers of names: once given they stay. */
    private final Map<String, Integer> types = new ConcurrentHashMap<>();

    private final Map<String, Integer> labels = new ConcurrentHashMap<>();
    private final Map<String, Integer> keys = new ConcurrentHashMap<>();

    InProcessWriter(GraphDatabaseAPI database, Condition condition, Recall recall) {
        this.recall = recall;
        this.database = database;
        this.condition = condition;
    }

    @Override
    public void write(List<Ledger.Kept> kept, List<GraphRows> rows) {
        condition.requireRoom();
        try (InternalTransaction tx = database.beginTransaction(
                KernelTransaction.Type.EXPLICIT,
                LoginContext.AUTH_DISABLED,
                ClientConnectionInfo.EMBEDDED_CONNECTION,
                LIMIT_MINUTES,
                TimeUnit.MINUTES)) {
            Ledger.appendNew(tx, kept);
            for (GraphRows r : rows) {
                write(tx.kernelTransaction(), r);
            }
            boolean unused = recall.committing(
                    kept.stream().map(k -> k.revision().house()).toList(), () -> {
                        tx.commit();
                        return true;
                    });
        } catch (ProblemException e) {
            throw e;
        } catch (KernelException | RuntimeException e) {
            condition.stopped().ifPresent(p -> {
                throw new ProblemException(p);
            });
            ProblemException p = new ProblemException(
                    Problem.error(ProblemKind.INTERNAL, Where.NOWHERE, "The database reports: " + e.getMessage(), ""));
            p.initCause(e);
            throw p;
        }
    }

    private void write(KernelTransaction kernel, GraphRows rows) throws KernelException {
        Write write = kernel.dataWrite();
        TokenWrite names = kernel.tokenWrite();
        long[] nodes = new long[rows.nodes().size()];
        for (int i = 0; i < nodes.length; i++) {
            GraphRows.NodeRow row = rows.nodes().get(i);
            int[] own = new int[row.others().size() + 1];
            own[0] = number(labels, row.label(), names::labelGetOrCreateForName);
            for (int j = 1; j < own.length; j++) {
                own[j] = number(labels, row.others().get(j - 1), names::labelGetOrCreateForName);
            }
            nodes[i] = write.nodeCreateWithLabels(own);
            write.nodeApplyChanges(nodes[i], NO_LABELS, NO_LABELS, values(names, row.properties()));
        }
        for (GraphRows.TieRow row : rows.ties()) {
            int type = number(types, row.type(), names::relationshipTypeGetOrCreateForName);
            long tie = write.relationshipCreate(nodes[row.from()], type, nodes[row.to()]);
            if (!row.properties().isEmpty()) {
                write.relationshipApplyChanges(tie, values(names, row.properties()));
            }
        }
    }

    private MutableIntObjectMap<Value> values(TokenWrite names, Map<String, Object> properties) throws KernelException {
        MutableIntObjectMap<Value> values = IntObjectMaps.mutable.withInitialCapacity(properties.size());
        for (Map.Entry<String, Object> e : properties.entrySet()) {
            values.put(number(keys, e.getKey(), names::propertyKeyGetOrCreateForName), stored(e.getValue()));
        }
        return values;
    }

    /** Gives a name its number in the database. */
    @FunctionalInterface
    private interface Naming {
        int number(String name) throws KernelException;
    }

    private static int number(Map<String, Integer> known, String name, Naming naming) throws KernelException {
        Integer number = known.get(name);
        if (number == null) {
            number = naming.number(name);
            known.put(name, number);
        }
        return number;
    }

    /** Lists are of texts. */
    private static Value stored(Object value) {
        return value instanceof List<?> list
                ? Values.stringArray(list.stream().map(String.class::cast).toArray(String[]::new))
                : Values.of(value);
    }
}
