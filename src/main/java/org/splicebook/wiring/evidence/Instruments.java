package org.splicebook.wiring.evidence;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What a reading is worth by what it was taken with (design ruling 11): a contact tester, a meter, a plug-in tester, a lamp or another load
 * tells; what only reacts to a field beside it tells nothing, nor does what is not named or not known. The words are in
 * {@code instruments.txt}.
 */
public final class Instruments {
    private static final Map<String, Boolean> TELLS = read();

    private Instruments() {}

    private static Map<String, Boolean> read() {
        try (InputStream in = Objects.requireNonNull(Instruments.class.getResourceAsStream("instruments.txt"))) {
            Map<String, Boolean> words = new HashMap<>();
            new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(l -> !l.isBlank() && !l.startsWith("#"))
                    .map(l -> l.split(" "))
                    .forEach(l -> words.put(l[1], l[0].equals("tells")));
            return words;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return whether a reading with this instrument may exclude something} */
    public static boolean tells(@Nullable String instrument) {
        return !isField(instrument) && words(instrument).stream().anyMatch(w -> TELLS.getOrDefault(w, false));
    }

    /** {@return whether this instrument only reacts to a field, so that not even a light of it shows anything} */
    public static boolean isField(@Nullable String instrument) {
        return words(instrument).stream().anyMatch(w -> !TELLS.getOrDefault(w, true));
    }

    /** The words of a name, those with a hyphen also apart, and each as if it were a plural. */
    private static List<String> words(@Nullable String instrument) {
        if (instrument == null) {
            return List.of();
        }
        String lower = instrument.toLowerCase(Locale.ROOT);
        return java.util.stream.Stream.of(lower.split("[^a-z-]+"), lower.split("[^a-z]+"))
                .flatMap(java.util.Arrays::stream)
                .flatMap(w -> java.util.stream.Stream.of(w, w.replaceFirst("s$", "")))
                .toList();
    }
}
