package org.splicebook.housefile;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/** The keys that each part of a house file may have, taken from its JSON Schema: the schema is the one place for them. */
final class Shapes {
    /** The shape of the whole file. */
    static final String HOUSE = "house";

    private static final Map<String, Set<String>> KEYS = load();

    private Shapes() {}

    /** {@return the keys of a shape, a word of the schema's {@code $defs}} */
    static Set<String> keys(String shape) {
        return Objects.requireNonNull(KEYS.get(shape), shape);
    }

    /** {@return the names of all shapes} */
    static Set<String> all() {
        return KEYS.keySet();
    }

    /** {@return the JSON Schema as text} */
    static String schema() {
        return resource("house-file.schema.json");
    }

    /** {@return a text file that lies beside this class} */
    static String resource(String name) {
        try (InputStream in = Shapes.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Map<String, Set<String>> load() {
        Problems problems = new Problems();
        Node schema = YamlReader.read("house-file.schema.json", schema(), Limits.NODES, problems)
                .orElseThrow(() -> new IllegalStateException(problems.inOrder().toString()));
        Map<String, Set<String>> keys = new TreeMap<>();
        keys.put(HOUSE, keysOf(entry(schema, "properties")));
        for (Node.Entry shape : ((Node.Entries) entry(schema, "$defs")).entries()) {
            if (has(shape.value(), "properties")) {
                keys.put(shape.key().text(), keysOf(entry(shape.value(), "properties")));
            }
        }
        return keys;
    }

    private static Set<String> keysOf(Node map) {
        Set<String> keys = new LinkedHashSet<>();
        ((Node.Entries) map).entries().forEach(e -> keys.add(e.key().text()));
        return keys;
    }

    private static boolean has(Node map, String key) {
        return ((Node.Entries) map)
                .entries().stream().anyMatch(e -> e.key().text().equals(key));
    }

    private static Node entry(Node map, String key) {
        return ((Node.Entries) map)
                .entries().stream()
                        .filter(e -> e.key().text().equals(key))
                        .findFirst()
                        .orElseThrow()
                        .value();
    }
}
