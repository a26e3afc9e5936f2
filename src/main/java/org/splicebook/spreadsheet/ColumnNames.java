package org.splicebook.spreadsheet;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.splicebook.housefile.PlainYaml;

/** What the columns of lists are called, from {@code columns.yaml}. */
public final class ColumnNames {
    private static final Map<String, Map<String, List<String>>> ALL = load();

    private ColumnNames() {}

    /** {@return the fields of a kind of list, each with the words that its column may be headed by} */
    public static Map<String, List<String>> of(ListKind kind) {
        return Objects.requireNonNull(ALL.get(kind.word()));
    }

    /** {@return a heading as it is compared: letters and digits in lower case} */
    static String bare(String heading) {
        return heading.toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}]+", " ")
                .strip();
    }

    private static Map<String, Map<String, List<String>>> load() {
        Map<String, Map<String, List<String>>> all = new LinkedHashMap<>();
        ((Map<?, ?>) PlainYaml.strings(text())).forEach((kind, fields) -> {
            Map<String, List<String>> words = new LinkedHashMap<>();
            ((Map<?, ?>) fields)
                    .forEach((field, names) -> words.put(
                            String.valueOf(field),
                            ((List<?>) names).stream().map(String::valueOf).toList()));
            all.put(String.valueOf(kind), words);
        });
        return all;
    }

    private static String text() {
        try (InputStream in = ColumnNames.class.getResourceAsStream("columns.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
