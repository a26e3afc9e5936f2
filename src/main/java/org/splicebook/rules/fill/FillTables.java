package org.splicebook.rules.fill;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;

/** The figures of {@code box-fill.yaml}. */
final class FillTables {
    /**
     * How grounds and terminal blocks count.
     *
     * @param from the edition from which it holds
     * @param title what people call it
     * @param groundsInOne so many grounds count as one wire of the largest of them
     * @param eachFurther what each further one counts
     * @param countsTerminalBlocks whether terminal blocks count
     * @param table the table of volumes
     */
    record Method(
            int from, String title, int groundsInOne, double eachFurther, boolean countsTerminalBlocks, String table) {}

    /** What an item counts by. */
    record Article(String article, String mark) {}

    /** Something that people want to add. */
    record Extra(String say, String size, int wires, int grounds, int gangs) {}

    private static final Map<?, ?> DATA = (Map<?, ?>) PlainYaml.strings(resource());

    static final Map<String, Double> VOLUMES = numbers("volumes");
    static final double SMALLEST = Collections.min(VOLUMES.values());
    static final Map<String, Double> BARRIERS = numbers("barriers");
    static final int PULL_BOX_FROM = integer(DATA, "pull-box-from", 0);
    static final int WIDE_FROM = integer(DATA, "wide-from", 0);
    static final int WIDE_GANGS = integer(DATA, "wide-gangs", 0);
    static final int LEADS_FREE = integer(DATA, "leads-free", 0);
    static final int CHECKED_TO = integer(DATA, "checked-to", 0);
    static final Set<String> WITH_LEADS = leads();
    static final Room LEAD = new Room(volume(map(DATA.get("leads")), "least"), volume(map(DATA.get("leads")), "most"));
    static final List<Extra> EXTRAS = extras();
    private static final List<Method> METHODS = methods();
    private static final Map<String, Article> ARTICLES = articles();

    private FillTables() {}

    /** {@return the way to count that holds in an edition} */
    static Method method(int edition) {
        return METHODS.stream()
                .filter(m -> m.from() <= edition)
                .reduce((a, b) -> b)
                .orElseThrow();
    }

    /** {@return what an item counts by} */
    static Article article(String item) {
        return Objects.requireNonNull(ARTICLES.get(item), item);
    }

    private static Map<String, Double> numbers(String group) {
        Map<String, Double> all = new LinkedHashMap<>();
        map(DATA.get(group)).forEach((k, v) -> all.put(text(k), Double.valueOf(text(v))));
        return Map.copyOf(all);
    }

    private static Set<String> leads() {
        return Set.copyOf(
                ((List<?>) Objects.requireNonNull(map(DATA.get("leads")).get("kinds")))
                        .stream().map(FillTables::text).toList());
    }

    private static double volume(Map<?, ?> of, String key) {
        return Objects.requireNonNull(VOLUMES.get(text(of.get(key))));
    }

    private static List<Extra> extras() {
        List<Extra> all = new ArrayList<>();
        for (Object o : (List<?>) Objects.requireNonNull(DATA.get("extras"))) {
            Map<?, ?> m = map(o);
            all.add(new Extra(
                    text(m.get("say")),
                    text(m.get("size")),
                    integer(m, "wires", 0),
                    integer(m, "grounds", 0),
                    integer(m, "gangs", 0)));
        }
        return List.copyOf(all);
    }

    private static List<Method> methods() {
        List<Method> all = new ArrayList<>();
        for (Object o : (List<?>) Objects.requireNonNull(DATA.get("methods"))) {
            Map<?, ?> m = map(o);
            all.add(new Method(
                    integer(m, "from", 0),
                    text(m.get("title")),
                    text(m.get("grounds-in-one")).equals("all") ? Integer.MAX_VALUE : integer(m, "grounds-in-one", 0),
                    Double.parseDouble(text(m.get("each-further"))),
                    text(m.get("terminal-blocks")).equals("yes"),
                    text(m.get("table"))));
        }
        return List.copyOf(all);
    }

    private static Map<String, Article> articles() {
        Map<String, Article> all = new LinkedHashMap<>();
        map(DATA.get("articles"))
                .forEach(
                        (k, v) -> all.put(text(k), new Article(text(map(v).get("article")), text(map(v).get("mark")))));
        return all;
    }

    private static Map<?, ?> map(@Nullable Object o) {
        return (Map<?, ?>) Objects.requireNonNull(o);
    }

    private static String text(@Nullable Object o) {
        return String.valueOf(Objects.requireNonNull(o));
    }

    private static int integer(Map<?, ?> of, String key, int otherwise) {
        Object o = of.get(key);
        return o == null ? otherwise : Integer.parseInt(text(o));
    }

    private static String resource() {
        try (InputStream in = FillTables.class.getResourceAsStream("box-fill.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
