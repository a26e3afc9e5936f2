package org.splicebook.upkeep;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.housefile.PlainYaml;

/** The kinds of tests, from {@code tests.yaml}. */
public final class TestKinds {
    /** Tests of protective devices by their own button. */
    public static final String TRIP_BUTTON = "trip-button";

    /** Tests of a load point after a change. */
    public static final String AFTER_CHANGE = "after-change";

    private static final List<TestKind> ALL = load();

    private TestKinds() {}

    /** {@return all kinds, in the order of the file} */
    public static List<TestKind> all() {
        return ALL;
    }

    /** {@return the kind of that word, if it is one} */
    public static Optional<TestKind> find(String id) {
        return ALL.stream().filter(k -> k.id().equals(id)).findFirst();
    }

    private static List<TestKind> load() {
        List<TestKind> all = new ArrayList<>();
        ((Map<?, ?>) PlainYaml.strings(text())).forEach((id, value) -> {
            Map<?, ?> v = (Map<?, ?>) value;
            all.add(new TestKind(
                    String.valueOf(id),
                    word(v, "title"),
                    TestKind.Of.valueOf(word(v, "of").toUpperCase(Locale.ROOT)),
                    Integer.parseInt(word(v, "months")),
                    word(v, "counts-from").equals("since"),
                    word(v, "usual").equals("yes"),
                    word(v, "how"),
                    word(v, "from")));
        });
        return List.copyOf(all);
    }

    private static String word(Map<?, ?> map, String key) {
        return String.valueOf(Objects.requireNonNull(map.get(key), key));
    }

    private static String text() {
        try (InputStream in = TestKinds.class.getResourceAsStream("tests.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
