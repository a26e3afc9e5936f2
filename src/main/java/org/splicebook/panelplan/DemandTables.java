package org.splicebook.panelplan;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;

/** The figures of {@code demand.yaml}. */
final class DemandTables {
    private static final Map<?, ?> DATA = (Map<?, ?>) PlainYaml.strings(resource());

    private DemandTables() {}

    /** {@return the editions that are known, oldest first} */
    static List<Integer> editions() {
        return texts(DATA.get("editions")).stream().map(Integer::valueOf).toList();
    }

    /** {@return a figure as it stands in an edition} */
    static double value(String key, int edition) {
        return Double.parseDouble(inEdition("values", key, edition));
    }

    /** {@return a percentage as it stands in an edition, as a factor} */
    static double factor(String key, int edition) {
        return value(key, edition) / 100;
    }

    /** {@return the article that something counts by in an edition} */
    static String article(String key, int edition) {
        return inEdition("articles", key, edition);
    }

    private static String inEdition(String group, String key, int edition) {
        TreeMap<Integer, String> byYear = new TreeMap<>();
        map(map(DATA.get(group)).get(key)).forEach((k, v) -> byYear.put(Integer.valueOf(text(k)), text(v)));
        return Objects.requireNonNull(byYear.floorEntry(edition), key).getValue();
    }

    /** {@return a list of figures} */
    static List<Double> numbers(String group) {
        return texts(DATA.get(group)).stream().map(Double::valueOf).toList();
    }

    /** {@return a list of words} */
    static List<String> words(String group) {
        return texts(DATA.get(group));
    }

    /** {@return the entry of the greatest number that is not above n; null below the first} */
    static @Nullable List<Double> from(String group, int n) {
        TreeMap<Integer, List<Double>> rows = new TreeMap<>();
        map(DATA.get(group))
                .forEach((k, v) -> rows.put(
                        Integer.valueOf(text(k)),
                        (v instanceof List<?> list ? texts(list) : List.of(text(v)))
                                .stream().map(Double::valueOf).toList()));
        Map.Entry<Integer, List<Double>> row = rows.floorEntry(n);
        return row == null ? null : row.getValue();
    }

    /** {@return the number at which that entry begins} */
    static int begins(String group, int n) {
        TreeMap<Integer, Object> rows = new TreeMap<>();
        map(DATA.get(group)).forEach((k, v) -> rows.put(Integer.valueOf(text(k)), v));
        return Objects.requireNonNull(rows.floorKey(n));
    }

    /** {@return a figure of a plain group} */
    static double number(String group, String key) {
        return Double.parseDouble(text(map(DATA.get(group)).get(key)));
    }

    /** {@return the words of a row; null where there is no such row} */
    static @Nullable List<String> row(String group, String key) {
        Object row = map(DATA.get(group)).get(key);
        return row == null ? null : texts(row);
    }

    /** {@return the rows of a group that is a list of lists} */
    static List<List<String>> rows(String group) {
        return ((List<?>) Objects.requireNonNull(DATA.get(group)))
                .stream().map(DemandTables::texts).toList();
    }

    /** {@return what a word of a house file is in a calculation; null where it is none that is known} */
    static @Nullable Map<?, ?> recorded(String word) {
        Object row = map(DATA.get("recorded")).get(word);
        return row == null ? null : map(row);
    }

    /** {@return what people call the kinds of loads, by the words} */
    static Map<String, String> said() {
        Map<String, String> said = new TreeMap<>();
        map(DATA.get("said")).forEach((k, v) -> said.put(text(k), text(v)));
        return said;
    }

    /** {@return a figure that stands alone} */
    static double single(String key) {
        return Double.parseDouble(text(DATA.get(key)));
    }

    private static List<String> texts(@Nullable Object list) {
        return ((List<?>) Objects.requireNonNull(list))
                .stream().map(DemandTables::text).toList();
    }

    private static Map<?, ?> map(@Nullable Object o) {
        return (Map<?, ?>) Objects.requireNonNull(o);
    }

    private static String text(@Nullable Object o) {
        return String.valueOf(Objects.requireNonNull(o));
    }

    private static String resource() {
        try (InputStream in = DemandTables.class.getResourceAsStream("demand.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
