package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.types.Relationship;
import org.splicebook.answer.HopWords;
import org.splicebook.record.Basis;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/**
 * The why of an answer's rows: the ways that the graph keeps, in words. A row that returns ways itself is told by those; else, where its
 * subject is a load point, by that load point's ways, those through what the question named before others.
 */
final class Ways {
    private static final int TOLD = 3;
    private static final String OF_POINTS = """
            MATCH (h:House {key: $house})
            RETURN coalesce(h.revision, 0) AS revision,
                   COLLECT {
                     UNWIND $points AS point
                     MATCH (p:LoadPoint {key: $house + '/' + point})-[way:FED_BY|RETURNS_OVER|GROUNDED_OVER]->()
                     RETURN {point: point, way: way}
                   } AS ways
            """;

    private final Map<String, List<Relationship>> ofPoint;
    private final Collection<String> named;

    private Ways(Map<String, List<Relationship>> ofPoint, Collection<String> named) {
        this.ofPoint = ofPoint;
        this.named = named;
    }

    /**
     * Reads the ways of those subjects that are load points and not excluded.
     *
     * @param rows the rows that the question returned
     * @param revision the revision that they were read from
     * @return the ways, unless the house was changed meanwhile: the database shows each statement the newest state
     */
    static Optional<Ways> read(
            TransactionContext tx, String house, long revision, Map<String, String> parameters, List<Record> rows) {
        List<String> points = rows.stream()
                .filter(r -> !r.containsKey(Asking.WAYS)
                        && r.containsKey("subject")
                        && !r.get("status").asString("").equals("excluded"))
                .map(r -> String.valueOf(Cells.plain(r.get("subject"))))
                .distinct()
                .toList();
        return tx.run(OF_POINTS, Map.of("house", house, "points", points)).stream()
                .filter(r -> r.get("revision").asLong() == revision)
                .findFirst()
                .map(r -> new Ways(byPoint(r.get("ways")), parameters.values()));
    }

    /** {@return the ways of nothing} */
    static Ways none() {
        return new Ways(Map.of(), List.of());
    }

    /** Asks for the ways of nothing, so that the plan is made and kept. */
    static void rehearse(TransactionContext tx, String house) {
        tx.run(OF_POINTS, Map.of("house", house, "points", List.of())).consume();
    }

    private static Map<String, List<Relationship>> byPoint(Value ways) {
        return ways.asList(w -> w).stream()
                .collect(Collectors.groupingBy(
                        w -> w.get("point").asString(),
                        Collectors.mapping(w -> w.get("way").asRelationship(), Collectors.toList())));
    }

    /** {@return the why of a row, hop by hop} */
    List<String> why(Record row) {
        if (row.containsKey(Asking.WAYS)) {
            return said(row.get(Asking.WAYS).asList(Value::asRelationship));
        }
        if (row.get("status").asString("").equals("excluded")) {
            return List.of();
        }
        List<Relationship> all =
                ofPoint.getOrDefault(String.valueOf(Cells.plain(row.get("subject"))), List.of()).stream()
                        .sorted(Comparator.comparing(Relationship::type).thenComparing(w -> -sureness(w)))
                        .toList();
        List<Relationship> through = all.stream()
                .filter(w -> named.stream().anyMatch(n -> passes(w, n)))
                .toList();
        return said(through.isEmpty() ? all : through);
    }

    private static int sureness(Relationship way) {
        return List.of("may", "shown", "must").indexOf(way.get("sureness").asString(""));
    }

    /** A way passes a thing when it names it, a part of it, or lies in it. */
    private static boolean passes(Relationship way, String thing) {
        return way.get("breaker").asString("").equals(thing)
                || strings(way, "hopNames").stream()
                        .anyMatch(h -> h.equals(thing) || h.startsWith(thing + ".") || h.startsWith(thing + "@"))
                || strings(way, "hopBoxes").contains(thing);
    }

    private static List<String> said(List<Relationship> ways) {
        List<String> lines = new ArrayList<>();
        for (Relationship w : ways.subList(0, Math.min(TOLD, ways.size()))) {
            lines.add("From " + w.get("terminal").asString("") + (isSure(w) ? "" : ", possibly") + ":");
            lines.addAll(HopWords.say(way(w)));
        }
        if (ways.size() > TOLD) {
            lines.add("and " + (ways.size() - TOLD) + " more ways.");
        }
        return lines;
    }

    private static boolean isSure(Relationship way) {
        return !way.get("sureness").asString("may").equals("may");
    }

    private static Way way(Relationship w) {
        List<String> kinds = strings(w, "hopKinds");
        List<String> names = strings(w, "hopNames");
        List<String> boxes = strings(w, "hopBoxes");
        List<String> bases = strings(w, "hopBases");
        List<Way.Hop> hops = new ArrayList<>();
        for (int i = 0; i < kinds.size(); i++) {
            Thing thing = new Thing(constant(ThingKind.class, kinds.get(i)), names.get(i));
            hops.add(new Way.Hop(thing, boxes.get(i), constant(Basis.class, bases.get(i))));
        }
        Basis weakest = constant(Basis.class, w.get("basis").asString("assumed"));
        return new Way(hops, weakest, w.get("throughUnknown").asBoolean(false));
    }

    private static <E extends Enum<E>> E constant(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(java.util.Locale.ROOT).replace('-', '_'));
    }

    private static List<String> strings(Relationship way, String property) {
        return way.get(property).isNull() ? List.of() : way.get(property).asList(Value::asString);
    }
}
