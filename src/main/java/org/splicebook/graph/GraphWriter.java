package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.neo4j.driver.Result;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.types.Node;
import org.neo4j.driver.types.Relationship;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.graph.GraphRows.TieRow;
import org.splicebook.store.Revision;

/** Writes, reads and takes away houses' rows, within a transaction of its caller. */
final class GraphWriter {
    /** The label, in rows only, of what a house's relationship leads to outside it. */
    static final String OUTSIDE = "Outside";

    // What statements are given is one map: for a list of another length that is a parameter by itself the database
    // plans anew.
    private static final String CREATE_NODES = """
            UNWIND $all.rows AS row
            CREATE (n:$(row[0]))
            SET n = row[1]
            RETURN elementId(n) AS id
            """;
    private static final String CREATE_TIES = """
            UNWIND $all.rows AS row
            MATCH (a) WHERE elementId(a) = $all.ids[row[0]]
            MATCH (b) WHERE elementId(b) = $all.ids[row[2]]
            CREATE (a)-[r:$(row[1])]->(b)
            SET r = row[3]
            """;
    private static final String SET_NODES = """
            UNWIND $all.rows AS row
            MATCH (n) WHERE elementId(n) = row[0]
            SET n = row[1]
            RETURN count(n) AS n
            """;
    private static final String DELETE_NODES = """
            UNWIND $all.ids AS id
            MATCH (n) WHERE elementId(n) = id
            DETACH DELETE n
            """;
    private static final String DELETE_TIES = """
            UNWIND $all.rows AS row
            MATCH (a) WHERE elementId(a) = $all.ids[row[0]]
            MATCH (b) WHERE elementId(b) = $all.ids[row[2]]
            CALL (row, a, b) {
              MATCH (a)-[r]->(b) WHERE type(r) = row[1] AND properties(r) = row[3]
              RETURN r LIMIT 1
            }
            DELETE r
            """;

    /**
     * Finds nodes of a house by their keys; the house itself only where its graph is of the revision and stamp that is thought.
     */
    private static final String FIND = """
            MATCH (n:Part {house: $house})
            WHERE n.key IN $find.keys
              AND (NOT n:House OR (n.revision = $find.revision AND n.derivation = $find.stamp))
            RETURN head([l IN labels(n) WHERE NOT l IN ['Part', 'Thing']]) + ' ' + n.key AS said, elementId(n) AS id
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
        GraphChange change = GraphChange.between(stored.rows(), rows);
        Map<String, String> ids = new HashMap<>();
        for (int i = 0; i < stored.ids().size(); i++) {
            ids.put(stored.rows().nodes().get(i).identity(), stored.ids().get(i));
        }
        boolean unused = apply(tx, change, ids);
    }

    /**
     * Makes a change to what is stored of a house without reading the rest of it.
     *
     * @param before the revision that the graph is thought to be of
     * @return whether all that was to be changed was found as thought; where not, the graph is some of both
     */
    static boolean change(TransactionContext tx, GraphChange change, Revision before) {
        Map<String, NodeRow> wanted = new HashMap<>();
        change.gone().forEach(n -> wanted.put(n.said(), n));
        change.changed().forEach(n -> wanted.put(n.said(), n));
        Stream.concat(change.untied().stream(), change.tied().stream()).forEach(t -> {
            wanted.put(t.from().said(), t.from());
            wanted.put(t.to().said(), t.to());
        });
        change.made().forEach(n -> wanted.remove(n.said()));
        List<Object> keys = wanted.values().stream()
                .map(n -> Objects.requireNonNull(n.properties().get("key")))
                .distinct()
                .toList();
        Map<String, Object> find = Map.of("keys", keys, "revision", before.number(), "stamp", Projection.STAMP);
        Map<String, String> ids = new HashMap<>();
        tx.run(FIND, Map.of("house", before.house(), "find", find)).forEachRemaining(r -> {
            NodeRow found = wanted.get(r.get("said").asString());
            if (found != null) {
                ids.put(found.identity(), r.get("id").asString());
            }
        });
        return ids.size() == wanted.size() && apply(tx, change, ids);
    }

    /** Changes; {@return whether everything that was to be taken away or set was there}. */
    private static boolean apply(TransactionContext tx, GraphChange change, Map<String, String> known) {
        Map<String, Integer> at = new HashMap<>();
        List<String> ids = new ArrayList<>();
        known.forEach((node, id) -> {
            at.put(node, ids.size());
            ids.add(id);
        });
        boolean isAll = true;
        if (!change.untied().isEmpty()) {
            isAll &= run(tx, DELETE_TIES, Map.of("rows", ties(change.untied(), at), "ids", ids))
                            .consume()
                            .counters()
                            .relationshipsDeleted()
                    == change.untied().size();
        }
        if (!change.gone().isEmpty()) {
            isAll &= run(tx, DELETE_NODES, Map.of("ids", ids(change.gone(), known)))
                            .consume()
                            .counters()
                            .nodesDeleted()
                    == change.gone().size();
        }
        if (!change.changed().isEmpty()) {
            List<List<Object>> rows = change.changed().stream()
                    .map(n -> List.<Object>of(id(n, known), n.properties()))
                    .toList();
            isAll &= run(tx, SET_NODES, Map.of("rows", rows)).single().get("n").asInt() == rows.size();
        }
        List<String> created = createNodes(
                tx, change.made().stream().map(GraphWriter::nodeValue).toList());
        for (int i = 0; i < created.size(); i++) {
            at.put(change.made().get(i).identity(), ids.size());
            ids.add(created.get(i));
        }
        createTies(tx, ties(change.tied(), at), ids);
        return isAll;
    }

    private static Result run(TransactionContext tx, String cypher, Map<String, Object> all) {
        return tx.run(cypher, Map.of("all", all));
    }

    private static String id(NodeRow n, Map<String, String> known) {
        return Objects.requireNonNull(known.get(n.identity()), n::identity);
    }

    private static List<String> ids(List<NodeRow> nodes, Map<String, String> known) {
        return nodes.stream().map(n -> id(n, known)).toList();
    }

    private static List<List<Object>> ties(List<GraphChange.Tie> ties, Map<String, Integer> at) {
        return ties.stream()
                .map(t -> List.<Object>of(
                        Objects.requireNonNull(at.get(t.from().identity())),
                        t.type(),
                        Objects.requireNonNull(at.get(t.to().identity())),
                        t.properties()))
                .toList();
    }

    /** Takes the house's rows away. */
    static void remove(TransactionContext tx, String house) {
        tx.run("MATCH (n:Part {house: $house}) DETACH DELETE n", Map.of("house", house))
                .consume();
    }

    /** Creates the rows of houses that have none. */
    static void create(TransactionContext tx, List<GraphRows> houses) {
        List<List<Object>> nodes = new ArrayList<>();
        List<List<Object>> ties = new ArrayList<>();
        for (GraphRows rows : houses) {
            int offset = nodes.size();
            rows.nodes().forEach(n -> nodes.add(nodeValue(n)));
            rows.ties().forEach(t -> ties.add(tieValue(t, offset)));
        }
        createTies(tx, ties, createNodes(tx, nodes));
    }

    private static List<Object> tieValue(TieRow t, int offset) {
        return List.of(t.from() + offset, t.type(), t.to() + offset, t.properties());
    }

    private static List<Object> nodeValue(NodeRow n) {
        List<String> labels = new ArrayList<>(n.others());
        labels.add(n.label());
        return List.of(labels, n.properties());
    }

    private static List<String> createNodes(TransactionContext tx, List<List<Object>> nodes) {
        return nodes.isEmpty()
                ? List.of()
                : run(tx, CREATE_NODES, Map.of("rows", nodes))
                        .list(r -> r.get("id").asString());
    }

    private static void createTies(TransactionContext tx, List<List<Object>> rows, List<String> ids) {
        if (!rows.isEmpty()) {
            run(tx, CREATE_TIES, Map.of("rows", rows, "ids", ids)).consume();
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
