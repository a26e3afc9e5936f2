package org.splicebook.panelplan.upgrade;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;

/** The figures and words of {@code upgrade.yaml}. */
final class UpgradeData {
    private static final Map<?, ?> DATA = (Map<?, ?>) PlainYaml.strings(resource());

    private UpgradeData() {}

    static double number(String key) {
        return Double.parseDouble(String.valueOf(Objects.requireNonNull(DATA.get(key), key)));
    }

    static BigDecimal exact(String key) {
        return new BigDecimal(String.valueOf(Objects.requireNonNull(DATA.get(key), key)));
    }

    static List<String> list(String key) {
        return ((List<?>) Objects.requireNonNull(DATA.get(key), key))
                .stream().map(String::valueOf).toList();
    }

    /** {@return a group's rows, each with its fields, by key} */
    static Map<String, Map<String, String>> rows(String key) {
        Map<String, Map<String, String>> rows = new LinkedHashMap<>();
        ((Map<?, ?>) Objects.requireNonNull(DATA.get(key), key))
                .forEach((k, v) -> rows.put(String.valueOf(k), fields((Map<?, ?>) v)));
        return rows;
    }

    /** {@return a group that is a list of rows} */
    static List<Map<String, String>> listed(String key) {
        return ((List<?>) Objects.requireNonNull(DATA.get(key), key))
                .stream().map(v -> fields((Map<?, ?>) v)).toList();
    }

    /** {@return a group of words by words} */
    static Map<String, String> words(String key) {
        return fields((Map<?, ?>) Objects.requireNonNull(DATA.get(key), key));
    }

    /** {@return the second word of the first row "limit word" whose limit is not below a value; null beyond the table} */
    static @Nullable String upTo(String key, double value) {
        return list(key).stream()
                .filter(r -> Double.parseDouble(r.split(" ")[0]) >= value)
                .map(r -> r.split(" ")[1])
                .findFirst()
                .orElse(null);
    }

    private static Map<String, String> fields(Map<?, ?> map) {
        Map<String, String> fields = new LinkedHashMap<>();
        map.forEach((k, v) -> fields.put(String.valueOf(k), String.valueOf(v)));
        return fields;
    }

    private static String resource() {
        try (InputStream in = UpgradeData.class.getResourceAsStream("upgrade.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
