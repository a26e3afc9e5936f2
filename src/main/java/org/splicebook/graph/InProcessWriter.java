package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import org.neo4j.graphdb.Entity;
import org.neo4j.graphdb.GraphDatabaseService;
import org.neo4j.graphdb.Label;
import org.neo4j.graphdb.Node;
import org.neo4j.graphdb.RelationshipType;
import org.neo4j.graphdb.Transaction;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** The embedded database's own way in: the rows are made as nodes and relationships in this process, without a statement for each. */
final class InProcessWriter implements BulkWriter {
    private static final int LIMIT_MINUTES = 4;

    private final GraphDatabaseService database;
    private final Map<String, RelationshipType> types = new ConcurrentHashMap<>();
    private final Map<String, Label> labels = new ConcurrentHashMap<>();

    InProcessWriter(GraphDatabaseService database) {
        this.database = database;
    }

    @Override
    public void write(List<Ledger.Kept> kept, List<GraphRows> rows) {
        try (Transaction tx = database.beginTx(LIMIT_MINUTES, TimeUnit.MINUTES)) {
            Ledger.appendNew(tx, kept);
            rows.forEach(r -> write(tx, r));
            tx.commit();
        } catch (ProblemException e) {
            throw e;
        } catch (RuntimeException e) {
            ProblemException p = new ProblemException(
                    Problem.error(ProblemKind.INTERNAL, Where.NOWHERE, "The database reports: " + e.getMessage(), ""));
            p.initCause(e);
            throw p;
        }
    }

    private void write(Transaction tx, GraphRows rows) {
        List<Node> nodes = new ArrayList<>(rows.nodes().size());
        for (GraphRows.NodeRow row : rows.nodes()) {
            Label[] all = new Label[row.others().size() + 1];
            all[0] = label(row.label());
            for (int i = 1; i < all.length; i++) {
                all[i] = label(row.others().get(i - 1));
            }
            Node node = tx.createNode(all);
            set(node, row.properties());
            nodes.add(node);
        }
        for (GraphRows.TieRow row : rows.ties()) {
            set(
                    nodes.get(row.from())
                            .createRelationshipTo(
                                    nodes.get(row.to()), types.computeIfAbsent(row.type(), RelationshipType::withName)),
                    row.properties());
        }
    }

    private Label label(String name) {
        return labels.computeIfAbsent(name, Label::label);
    }

    private static void set(Entity entity, Map<String, Object> properties) {
        properties.forEach((name, value) -> entity.setProperty(name, stored(value)));
    }

    /** Lists are of texts. */
    private static Object stored(Object value) {
        return value instanceof List<?> list
                ? list.stream().map(String.class::cast).toArray(String[]::new)
                : value;
    }
}
