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

    private GraphWriter() {}

    /** Puts rows in place of those that the house had. */
    static void replace(TransactionContext tx, String house, GraphRows rows) {
        remove(tx, house);
        create(tx, List.of(rows));
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
            for (NodeRow n : rows.nodes()) {
                List<String> labels = new ArrayList<>(n.others());
                labels.add(n.label());
                nodes.add(Values.value(List.of(labels, n.properties())));
            }
            for (TieRow t : rows.ties()) {
                ties.add(Values.value(List.of(t.from() + offset, t.type(), t.to() + offset, t.properties())));
            }
        }
        List<String> ids = tx.run(CREATE_NODES, Map.of("rows", nodes))
                .list(r -> r.get("id").asString());
        tx.run(CREATE_TIES, Map.of("rows", ties, "ids", ids)).consume();
    }

    /** {@return what is stored for a house} */
    static GraphRows read(TransactionContext tx, String house) {
        Map<String, Integer> index = new HashMap<>();
        List<NodeRow> nodes = new ArrayList<>();
        tx.run("MATCH (n:Part {house: $house}) RETURN elementId(n) AS id, n AS node", Map.of("house", house))
                .forEachRemaining(r -> {
                    index.put(r.get("id").asString(), nodes.size());
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
                        nodes.add(new NodeRow(
                                "Outside", List.of(), Map.of("key", r.get("key").asString(""))));
                        return nodes.size() - 1;
                    });
                    Relationship tie = r.get("r").asRelationship();
                    ties.add(new TieRow(index.getOrDefault(r.get("a").asString(), to), tie.type(), to, tie.asMap()));
                });
        return new GraphRows(nodes, ties);
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
