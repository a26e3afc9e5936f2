package org.splicebook.graph;

import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAmount;
import java.time.temporal.TemporalUnit;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Value;
import org.neo4j.driver.Values;
import org.neo4j.driver.internal.InternalNode;
import org.neo4j.driver.internal.InternalRelationship;
import org.neo4j.graphdb.Entity;
import org.neo4j.graphdb.Label;
import org.neo4j.graphdb.Node;
import org.neo4j.graphdb.Path;
import org.neo4j.graphdb.Relationship;
import org.neo4j.graphdb.spatial.Point;

/** What the database returns in this process, as the driver would return it: whole, so that it can be used when the transaction is over. */
final class InProcessValues {
    private InProcessValues() {}

    /** {@return the driver's value} */
    static Value value(@Nullable Object v) {
        if (v instanceof Node n) {
            return node(n).asValue();
        }
        if (v instanceof Relationship r) {
            return relationship(r).asValue();
        }
        if (v instanceof Path p) {
            return Values.value(p.toString()); // Nobody here walks one; a file that a user adds may list it.
        }
        if (v instanceof Map<?, ?> map) {
            Map<String, Value> values = new LinkedHashMap<>();
            map.forEach((k, e) -> values.put(String.valueOf(k), value(e)));
            return Values.value(values);
        }
        if (v instanceof Collection<?> list) {
            return Values.value(list.stream().map(InProcessValues::value).toList());
        }
        if (v instanceof Point p) {
            double[] at = p.getCoordinate().getCoordinate();
            int srid = p.getCRS().getCode();
            return at.length < 3 ? Values.point(srid, at[0], at[1]) : Values.point(srid, at[0], at[1], at[2]);
        }
        if (v instanceof TemporalAmount a) {
            return Values.isoDuration(of(a, ChronoUnit.MONTHS), of(a, ChronoUnit.DAYS), of(a, ChronoUnit.SECONDS), (int)
                    of(a, ChronoUnit.NANOS));
        }
        return Values.value(v);
    }

    private static long of(TemporalAmount amount, TemporalUnit unit) {
        return amount.getUnits().contains(unit) ? amount.get(unit) : 0;
    }

    private static InternalNode node(Node n) {
        List<String> labels = StreamSupport.stream(n.getLabels().spliterator(), false)
                .map(Label::name)
                .toList();
        return new InternalNode(number(n), n.getElementId(), labels, properties(n));
    }

    private static InternalRelationship relationship(Relationship r) {
        return new InternalRelationship(
                number(r),
                r.getElementId(),
                number(r.getStartNode()),
                r.getStartNode().getElementId(),
                number(r.getEndNode()),
                r.getEndNode().getElementId(),
                r.getType().name(),
                properties(r));
    }

    private static Map<String, Value> properties(Entity e) {
        Map<String, Value> values = new LinkedHashMap<>();
        e.getAllProperties().forEach((k, v) -> values.put(k, value(v)));
        return values;
    }

    /** The old number of an entity ends its name. */
    private static long number(Entity e) {
        String name = e.getElementId();
        return Long.parseLong(name.substring(name.lastIndexOf(':') + 1));
    }
}
