package org.splicebook.graph;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.graph.GraphRows.TieRow;
import org.splicebook.record.Basis;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;

/** Gathers the rows of one house: each node once, by label and name. */
final class RowBuilder {
    static final String PART = "Part";
    static final String THING = "Thing";

    private static final Map<ThingKind, String> LABELS = Stream.of(ThingKind.values())
            .collect(Collectors.toMap(k -> k, RowBuilder::spelled, (a, b) -> a, () -> new EnumMap<>(ThingKind.class)));
    private static final Set<String> THINGS = Set.copyOf(LABELS.values());

    /** The words of constants, each made once: a house has thousands. */
    private static final Map<Enum<?>, String> WORDS = new ConcurrentHashMap<>();

    private final String house;
    private final List<NodeRow> nodes = new ArrayList<>();
    private final List<TieRow> ties = new ArrayList<>();
    private final Map<String, Map<String, Integer>> index = new HashMap<>();

    RowBuilder(String house) {
        this.house = house;
    }

    /** {@return the index of the node, made bare where there was none} */
    int node(String label, String name) {
        return index.computeIfAbsent(label, l -> new HashMap<>()).computeIfAbsent(name, k -> {
            Map<String, Object> properties = new HashMap<>();
            properties.put("house", house);
            properties.put("name", name);
            properties.put("key", label.equals("House") ? house : house + "/" + name);
            nodes.add(new NodeRow(label, THINGS.contains(label) ? List.of(PART, THING) : List.of(PART), properties));
            return nodes.size() - 1;
        });
    }

    /** {@return whether there is such a node} */
    boolean has(String label, String name) {
        return index.getOrDefault(label, Map.of()).containsKey(name);
    }

    /** {@return the index of a thing's node, made bare where there was none} */
    int node(Thing thing) {
        return node(label(thing.kind()), thing.name());
    }

    /** {@return a property of a node, or null} */
    @Nullable
    Object get(int node, String property) {
        return nodes.get(node).properties().get(property);
    }

    /** Sets a property; null sets none. Whole numbers become Long, quantities their base unit's Double, enumerations words. */
    RowBuilder set(int node, String property, @Nullable Object value) {
        put(nodes.get(node).properties(), property, value);
        return this;
    }

    /** Sets the provenance. */
    void about(int node, Provenance about, Basis basis) {
        set(node, "basis", basis);
        set(node, "since", about.since());
        set(node, "before", about.before());
        set(node, "permit", about.permit());
        set(node, "note", about.note());
    }

    /** Adds a relationship with properties given as name, value, name, value. */
    void tie(int from, String type, int to, @Nullable Object... properties) {
        Map<String, Object> map = new HashMap<>();
        for (int i = 0; i < properties.length; i += 2) {
            put(map, String.valueOf(properties[i]), properties[i + 1]);
        }
        ties.add(new TieRow(from, type, to, map));
    }

    /** Adds a relationship with properties. */
    void tie(int from, String type, int to, Map<String, Object> properties) {
        ties.add(new TieRow(from, type, to, properties));
    }

    /** {@return what was gathered} */
    GraphRows build() {
        return new GraphRows(nodes, ties);
    }

    /** {@return a word for an enumeration's constant: lower case with hyphens} */
    static String word(Enum<?> constant) {
        return WORDS.computeIfAbsent(
                constant, c -> c.name().toLowerCase(Locale.ROOT).replace('_', '-'));
    }

    /** {@return the label of a kind of thing: {@code WireEnd} for {@code WIRE_END}} */
    static String label(ThingKind kind) {
        return Objects.requireNonNull(LABELS.get(kind));
    }

    private static String spelled(ThingKind kind) {
        StringBuilder s = new StringBuilder();
        for (String part : kind.name().split("_", -1)) {
            s.append(part.charAt(0)).append(part.substring(1).toLowerCase(Locale.ROOT));
        }
        return s.toString();
    }

    private static void put(Map<String, Object> map, String property, @Nullable Object value) {
        if (value instanceof Integer i) {
            map.put(property, (long) i);
        } else if (value instanceof Quantity q) {
            map.put(property, q.base());
        } else if (value instanceof Enum<?> e) {
            map.put(property, word(e));
        } else if (value != null) {
            map.put(property, value);
        }
    }
}
