package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.types.Relationship;
import org.splicebook.answer.Reason;
import org.splicebook.wiring.ThingKind;

/**
 * The why of an answer's rows: the ways that the graph keeps, in words. A row that returns ways itself is told by those; else, where its
 * subject is a load point, by that load point's ways, those through what the question named before others.
 */
final class Ways {
    private static final int TOLD = 3;

    /** Surer ways first; beyond that an order that does not hang on how the database keeps them. */
    private static final Comparator<Relationship> ORDER = Comparator.comparing(Relationship::type)
            .thenComparing(w -> -sureness(w))
            .thenComparing(w -> w.get("terminal").asString(""))
            .thenComparing(w -> w.get("breaker").asString(""))
            .thenComparing(w -> Hops.strings(w, Hops.NAMES).toString());

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
    /** Colours of the wires that are not named by their colour. */
    private final Map<String, String> colours;

    private final Collection<String> named;

    private Ways(Map<String, List<Relationship>> ofPoint, Map<String, String> colours, Collection<String> named) {
        this.ofPoint = ofPoint;
        this.colours = colours;
        this.named = named;
    }

    /**
     * Reads the ways of those subjects that are load points and not excluded, as far as they are not known.
     *
     * @param known what is known of the house, to which they are added
     * @param rows the rows that the question returned
     * @param unchanged whether surely nothing was written since the house was read
     * @return the ways, unless the house was changed meanwhile: the database shows each statement the newest state
     */
    static Optional<Ways> read(
            TransactionContext tx,
            String house,
            KnownHouse known,
            Map<String, String> parameters,
            List<Record> rows,
            BooleanSupplier unchanged) {
        List<String> missing = known.without(rows.stream()
                .filter(r -> !r.containsKey(Asking.WAYS)
                        && r.containsKey("subject")
                        && !r.get("status").asString("").equals("excluded"))
                .map(r -> String.valueOf(Cells.plain(r.get("subject"))))
                .distinct()
                .toList());
        if (!missing.isEmpty() || !unchanged.getAsBoolean()) {
            Record read = tx.run(OF_POINTS, Map.of("house", house, "points", missing)).list().stream()
                    .findFirst()
                    .orElse(null);
            if (read == null
                    || read.get("revision").asLong()
                            != known.house().get("revision").asLong(0)) {
                return Optional.empty();
            }
            Map<String, List<Relationship>> found = byPoint(read.get("ways"));
            missing.forEach(p -> known.ways().put(p, found.getOrDefault(p, List.of())));
        }
        return Optional.of(new Ways(known.ways(), colours(known.house().get("otherColours")), parameters.values()));
    }

    /** {@return the ways of nothing} */
    static Ways none() {
        return new Ways(Map.of(), Map.of(), List.of());
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

    private static Map<String, String> colours(Value pairs) {
        return pairs.asList(p -> p).stream()
                .collect(
                        Collectors.toMap(p -> p.get(0).asString(), p -> p.get(1).asString(), (a, b) -> a));
    }

    /** {@return the ways that a row rests on} */
    List<Reason> of(Record row) {
        if (row.containsKey(Asking.WAYS)) {
            return reasons(row.get(Asking.WAYS).asList(Value::asRelationship));
        }
        if (row.get("status").asString("").equals("excluded")) {
            return List.of();
        }
        List<Relationship> all =
                ofPoint.getOrDefault(String.valueOf(Cells.plain(row.get("subject"))), List.of()).stream()
                        .sorted(ORDER)
                        .toList();
        List<Relationship> through = all.stream()
                .filter(w -> named.stream().anyMatch(n -> passes(w, n)))
                .toList();
        return reasons(through.isEmpty() ? all : through);
    }

    private static int sureness(Relationship way) {
        return List.of("may", "shown", "must").indexOf(way.get("sureness").asString(""));
    }

    /** A way passes a thing when it names it, a part of it, or lies in it. */
    private static boolean passes(Relationship way, String thing) {
        return way.get("breaker").asString("").equals(thing)
                || Hops.strings(way, Hops.NAMES).stream()
                        .anyMatch(h -> h.equals(thing) || h.startsWith(thing + ".") || h.startsWith(thing + "@"))
                || Hops.strings(way, Hops.BOXES).contains(thing);
    }

    private List<Reason> reasons(List<Relationship> ways) {
        return ways.stream().map(this::reason).toList();
    }

    /** {@return the ways in words, the first few of them} */
    static List<String> say(List<Reason> ways) {
        List<String> lines = new ArrayList<>(Reason.say(ways.subList(0, Math.min(TOLD, ways.size()))));
        if (ways.size() > TOLD) {
            lines.add("and " + (ways.size() - TOLD) + " more ways.");
        }
        return lines;
    }

    private Reason reason(Relationship w) {
        boolean isSure = !w.get("sureness").asString("may").equals("may");
        List<Reason.Step> steps = Hops.steps(w, this::colour);
        String breaker = w.get("breaker").asString("");
        String from = "From " + w.get("terminal").asString("")
                + (steps.isEmpty() && !breaker.isEmpty() ? " to " + breaker : "");
        return new Reason(from + (isSure ? "" : ", possibly"), steps);
    }

    private String colour(ThingKind kind, String name) {
        if (kind != ThingKind.WIRE && kind != ThingKind.WIRE_END) {
            return "";
        }
        String wire = name.split("@")[0];
        return colours.getOrDefault(wire, wire.substring(wire.indexOf('.') + 1));
    }
}
