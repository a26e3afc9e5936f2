package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.splicebook.record.Property;
import org.splicebook.record.Provenance;
import org.splicebook.store.Revision;

/** A property in the graph: its buildings, units and common parts, links and meters, which name houses and their things by key. */
final class PropertyRows {
    private static final String REPLACE = """
            MATCH (p:Property {key: $property})
            CALL (p) {
              MATCH (p)<-[:OF]-(n)
              DETACH DELETE n
            }
            SET p.title = $title, p.linksComplete = $linksComplete
            """;
    private static final String CREATE = """
            MATCH (p:Property {key: $property})
            UNWIND $rows AS row
            CREATE (n:$(row.label))-[:OF]->(p)
            SET n = row.properties
            """;
    private static final String IN_BUILDING = """
            MATCH (p:Property {key: $property})<-[:OF]-(u:Unit)
            MATCH (b:Building {key: $property + '/' + u.building})
            CREATE (u)-[:IN]->(b)
            """;

    private static final String OF_PROPERTY =
            "MATCH (n:Building|Unit|FeedLink|Meter) WHERE n.key STARTS WITH $property + '/'";

    private PropertyRows() {}

    /** {@return the labels of the nodes that make up properties, each with a unique key} */
    static List<String> labels() {
        return List.of("Property", "PropertyRevision", "Building", "Unit", "FeedLink", "Meter");
    }

    /** Makes what is stored of a property into this one; its own node is there. */
    static void replace(TransactionContext tx, Property p) {
        tx.run(REPLACE, Map.of("property", p.id(), "title", p.said(), "linksComplete", p.linksComplete()))
                .consume();
        tx.run(CREATE, Map.of("property", p.id(), "rows", rows(p))).consume();
        tx.run(IN_BUILDING, Map.of("property", p.id())).consume();
    }

    /** Takes away whatever is stored of a property's parts, also what is tied to nothing. */
    static void remove(TransactionContext tx, String property) {
        tx.run(OF_PROPERTY + " DETACH DELETE n", Map.of("property", property)).consume();
    }

    /** {@return what has to be stored of a property, a line for each node} */
    static List<String> lines(Property p, Revision newest) {
        List<String> lines = new ArrayList<>();
        lines.add(line(
                "Property",
                Map.of(
                        "key",
                        p.id(),
                        "title",
                        p.said(),
                        "linksComplete",
                        p.linksComplete(),
                        "name",
                        newest.name(),
                        "newest",
                        newest.number()),
                List.of()));
        for (Map<String, Object> row : rows(p)) {
            Map<?, ?> properties = (Map<?, ?>) Objects.requireNonNull(row.get("properties"));
            List<String> ties = new ArrayList<>(List.of("OF " + p.id()));
            if (properties.get("building") instanceof String b && p.buildings().containsKey(b)) {
                ties.add("IN " + p.id() + "/" + b);
            }
            lines.add(line(String.valueOf(row.get("label")), properties, ties));
        }
        return lines;
    }

    /** {@return what is stored of a property, in the same way} */
    static List<String> lines(TransactionContext tx, String property) {
        List<String> lines = new ArrayList<>(tx.run(
                        "MATCH (p:Property {key: $property}) RETURN p {.key, .title, .linksComplete, .name, .newest} AS p",
                        Map.of("property", property))
                .list(r -> line("Property", r.get("p").asMap(), List.of())));
        lines.addAll(tx.run(
                        OF_PROPERTY + " RETURN labels(n)[0] AS label, properties(n) AS properties,"
                                + " COLLECT { MATCH (n)-[t:OF|IN]->(o) RETURN type(t) + ' ' + o.key } AS ties",
                        Map.of("property", property))
                .list(r -> line(
                        r.get("label").asString(),
                        r.get("properties").asMap(),
                        r.get("ties").asList(Value::asString))));
        return lines;
    }

    private static String line(String label, Map<?, ?> properties, List<String> ties) {
        Map<String, Object> sorted = new TreeMap<>();
        properties.forEach((key, value) -> sorted.put(String.valueOf(key), value));
        return label + " with " + sorted
                + ties.stream().sorted().map(t -> " " + t).collect(Collectors.joining());
    }

    private static List<Map<String, Object>> rows(Property p) {
        List<Map<String, Object>> rows = new ArrayList<>();
        p.buildings().values().forEach(b -> rows.add(row(p, "Building", b.name(), b.about(), "title", b.title())));
        p.parts()
                .values()
                .forEach(u -> rows.add(row(
                        p,
                        "Unit",
                        u.name(),
                        u.about(),
                        "title",
                        u.title(),
                        "role",
                        RowBuilder.word(u.role()),
                        "house",
                        u.house(),
                        "building",
                        u.building(),
                        "type",
                        u.type(),
                        "level",
                        u.level())));
        int n = 0;
        for (Property.Link l : p.links()) {
            rows.add(row(
                    p,
                    "FeedLink",
                    "link-" + ++n,
                    l.about(),
                    "from",
                    l.from(),
                    "point",
                    l.point(),
                    "pointKey",
                    house(p, l.from()) + "/" + l.point(),
                    "to",
                    l.to(),
                    "source",
                    l.source(),
                    "sourceKey",
                    house(p, l.to()) + "/" + l.source(),
                    "basis",
                    p.basis(l).word()));
        }
        p.meters()
                .values()
                .forEach(m -> rows.add(row(
                        p,
                        "Meter",
                        m.name(),
                        m.about(),
                        "number",
                        m.number(),
                        "counts",
                        m.counts(),
                        "in",
                        m.in(),
                        "source",
                        m.source(),
                        "sourceKey",
                        house(p, m.in()) + "/" + m.source(),
                        "basis",
                        p.basis(m).word())));
        return rows;
    }

    private static String house(Property p, String part) {
        Property.Part of = p.parts().get(part);
        return of == null ? "" : of.house();
    }

    private static Map<String, Object> row(
            Property p, String label, String name, Provenance about, @Nullable String... further) {
        Map<String, Object> properties = new HashMap<>();
        properties.put("key", p.id() + "/" + name);
        properties.put("property", p.id());
        properties.put("name", name);
        put(properties, "since", about.since());
        put(properties, "note", about.note());
        for (int i = 0; i < further.length; i += 2) {
            put(properties, String.valueOf(further[i]), further[i + 1]);
        }
        return Map.of("label", label, "properties", properties);
    }

    private static void put(Map<String, Object> properties, String name, @Nullable String value) {
        if (value != null) {
            properties.put(name, value);
        }
    }
}
