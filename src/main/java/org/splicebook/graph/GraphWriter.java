package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.Values;
import org.neo4j.driver.types.Node;
import org.neo4j.driver.types.Relationship;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.graph.GraphRows.TieRow;

/** Writes, reads and takes away houses' rows, within a transaction of its caller. */
final class GraphWriter {
    /** The label, in rows only, of what a house's relationship leads to outside it. */
    static final String OUTSIDE = "Outside";

    private static final String CREATE_NODES = """
            UNWIND $rows AS row
            CREATE (n:$(row[0]))
            SET n = row[1]
            RETURN elementId(n) AS id
            """;
    private static final String CREATE_TIES = """
            UNWIND $rows AS row
            MATCH (a) WHERE elementId(a) = $ids[row[0]]
            MATCH (b) WHERE elementId(b) = $ids[row[2]]
            CREATE (a)-[r:$(row[1])]->(b)
            SET r = row[3]
            """;
    private static final String SET_NODES = """
            UNWIND $rows AS row
            MATCH (n) WHERE elementId(n) = row[0]
            SET n = row[1]
            """;
    private static final String DELETE_NODES = """
            UNWIND $ids AS id
            MATCH (n) WHERE elementId(n) = id
            DETACH DELETE n
            """;
    private static final String DELETE_TIES = """
            UNWIND $rows AS row
            MATCH (a) WHERE elementId(a) = $ids[row[0]]
            MATCH (b) WHERE elementId(b) = $ids[row[2]]
            CALL (row, a, b) {
              MATCH (a)-[r]->(b) WHERE type(r) = row[1] AND properties(r) = row[3]
              RETURN r LIMIT 1
            }
            DELETE r
            """;

    private GraphWriter() {}

    /**
     * What is stored of a house.
     *
     * @param ids the database's own name of each node
     * @param rows the rows
     */
    record Stored(List<String> ids, GraphRows rows) {}

    /** Makes what is stored of a house into these rows, touching only what differs. */
    static void replace(TransactionContext tx, String house, GraphRows rows) {
        Stored stored = read(tx, house);
        if (stored.ids().isEmpty()) {
            create(tx, List.of(rows));
            return;
        }
        GraphChange change = GraphChange.between(stored, rows);
        run(tx, DELETE_TIES, change.tiesToDelete(), stored.ids());
        if (!change.nodesToDelete().isEmpty()) {
            tx.run(DELETE_NODES, Map.of("ids", change.nodesToDelete())).consume();
        }
        run(tx, SET_NODES, change.nodesToSet(), List.of());
        List<String> created = createNodes(
                tx,
                change.nodesToCreate().stream()
                        .map(i -> nodeValue(rows.nodes().get(i)))
                        .toList());
        List<String> ids = change.ids();
        for (int i = 0; i < created.size(); i++) {
            ids.set(change.nodesToCreate().get(i), created.get(i));
        }
        run(tx, CREATE_TIES, change.tiesToCreate(), ids);
    }

    /** Takes the house's rows away. */
    static void remove(TransactionContext tx, String house) {
        tx.run("MATCH (n:Part {house: $house}) DETACH DELETE n", Map.of("house", house))
                .consume();
    }

    /** Creates the rows of houses that have none. */
    static void create(TransactionContext tx, List<GraphRows> houses) {
        List<Value> nodes = new ArrayList<>();
        List<Value> ties = new ArrayList<>();
        for (GraphRows rows : houses) {
            int offset = nodes.size();
            rows.nodes().forEach(n -> nodes.add(nodeValue(n)));
            rows.ties().forEach(t -> ties.add(tieValue(t, offset)));
        }
        run(tx, CREATE_TIES, ties, createNodes(tx, nodes));
    }

    /** {@return a relationship as the statements take it} */
    static Value tieValue(TieRow t, int offset) {
        return Values.value(List.of(t.from() + offset, t.type(), t.to() + offset, t.properties()));
    }

    private static Value nodeValue(NodeRow n) {
        List<String> labels = new ArrayList<>(n.others());
        labels.add(n.label());
        return Values.value(List.of(labels, n.properties()));
    }

    private static List<String> createNodes(TransactionContext tx, List<Value> nodes) {
        return nodes.isEmpty()
                ? List.of()
                : tx.run(CREATE_NODES, Map.of("rows", nodes))
                        .list(r -> r.get("id").asString());
    }

    private static void run(TransactionContext tx, String cypher, List<Value> rows, List<String> ids) {
        if (!rows.isEmpty()) {
            tx.run(cypher, Map.of("rows", rows, "ids", ids)).consume();
        }
    }

    /** {@return what is stored for a house} */
    static Stored read(TransactionContext tx, String house) {
        Map<String, Integer> index = new HashMap<>();
        List<String> ids = new ArrayList<>();
        List<NodeRow> nodes = new ArrayList<>();
        tx.run("MATCH (n:Part {house: $house}) RETURN elementId(n) AS id, n AS node", Map.of("house", house))
                .forEachRemaining(r -> {
                    index.put(r.get("id").asString(), nodes.size());
                    ids.add(r.get("id").asString());
                    nodes.add(node(r.get("node").asNode()));
                });
        List<TieRow> ties = new ArrayList<>();
        tx.run(
                        "MATCH (a:Part {house: $house})-[r]->(b) RETURN elementId(a) AS a, r, elementId(b) AS b, b.key AS key",
                        Map.of("house", house))
                .forEachRemaining(r -> {
                    // A relationship that leaves the house is none of ours; it is kept in the rows so that a comparison
                    // tells it.
                    int to = index.computeIfAbsent(r.get("b").asString(), id -> {
                        ids.add(id);
                        nodes.add(new NodeRow(
                                OUTSIDE, List.of(), Map.of("key", r.get("key").asString(""))));
                        return nodes.size() - 1;
                    });
                    Relationship tie = r.get("r").asRelationship();
                    ties.add(new TieRow(index.getOrDefault(r.get("a").asString(), to), tie.type(), to, tie.asMap()));
                });
        return new Stored(ids, new GraphRows(nodes, ties));
    }

    private static NodeRow node(Node node) {
        List<String> labels = new ArrayList<>();
        node.labels().forEach(labels::add);
        List<String> others = labels.stream()
                .filter(l -> l.equals(RowBuilder.PART) || l.equals(RowBuilder.THING))
                .toList();
        String own =
                labels.stream().filter(l -> !others.contains(l)).findFirst().orElse("");
        List<String> rest = new ArrayList<>(labels);
        rest.remove(own);
        return new NodeRow(own, rest, node.asMap());
    }
}
