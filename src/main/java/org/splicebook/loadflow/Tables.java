package org.splicebook.loadflow;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.splicebook.housefile.PlainYaml;

/** The figures of {@code electrical.yaml}, by group and key. */
final class Tables {
    private static final Map<String, Map<String, Map<String, String>>> NESTED = new LinkedHashMap<>();
    private static final Map<String, Map<String, String>> FLAT = new LinkedHashMap<>();
    private static final Map<String, List<String>> LISTS = new LinkedHashMap<>();
    private static final Map<String, Map<String, Double>> NUMBERS = new ConcurrentHashMap<>();

    static {
        read();
    }

    private Tables() {}

    private static void read() {
        for (Map.Entry<?, ?> group :
                map(PlainYaml.strings(resource("electrical.yaml"))).entrySet()) {
            String name = String.valueOf(group.getKey());
            if (group.getValue() instanceof List<?> list) {
                LISTS.put(name, list.stream().map(String::valueOf).toList());
                continue;
            }
            Map<?, ?> entries = map(group.getValue());
            if (entries.values().stream().allMatch(v -> v instanceof Map)) {
                Map<String, Map<String, String>> rows = new LinkedHashMap<>();
                entries.forEach((k, v) -> rows.put(String.valueOf(k), texts(map(v))));
                NESTED.put(name, rows);
            } else {
                FLAT.put(name, texts(entries));
            }
        }
    }

    private static Map<?, ?> map(Object o) {
        return (Map<?, ?>) o;
    }

    private static Map<String, String> texts(Map<?, ?> m) {
        Map<String, String> texts = new LinkedHashMap<>();
        m.forEach((k, v) -> texts.put(String.valueOf(k), String.valueOf(v)));
        return texts;
    }

    /** {@return a text file that lies beside this class} */
    static String resource(String name) {
        try (InputStream in = Tables.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return the rows of a group} */
    static Map<String, Map<String, String>> rows(String group) {
        return Objects.requireNonNull(NESTED.get(group), group);
    }

    /** {@return a figure of a group without rows} */
    static double number(String group, String key) {
        return NUMBERS.computeIfAbsent(group, g -> new ConcurrentHashMap<>())
                .computeIfAbsent(key, k -> Double.parseDouble(text(group, k)));
    }

    /** {@return a word of a group without rows} */
    static String text(String group, String key) {
        return Objects.requireNonNull(
                Objects.requireNonNull(FLAT.get(group), group).get(key), key);
    }

    /** {@return the words of a list} */
    static List<String> list(String group) {
        return Objects.requireNonNull(LISTS.get(group), group);
    }

    /** {@return whether a group without rows has the key} */
    static boolean has(String group, String key) {
        return Objects.requireNonNull(FLAT.get(group), group).containsKey(key);
    }
}
