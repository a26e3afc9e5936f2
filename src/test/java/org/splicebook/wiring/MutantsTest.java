package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.FailsafeSchema;
import org.splicebook.wiring.GoldenHousesTest.Yaml;

/**
 * Whether the golden houses and the oracle notice a fault in the derivation: each of {@code mutants.yaml} is put into the source of
 * one class, compiled, and the derivation so changed is held to them.
 */
@Tag("full")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class MutantsTest {
    private static final Path SOURCES = Path.of("src/main/java/org/splicebook/wiring");
    private static final Path MUTANTS = Path.of("src/test/resources/org/splicebook/wiring/mutants.yaml");

    @TempDir
    Path folder;

    /** A fault: the class, what is replaced in its source, by what, and the ruling that this breaks. */
    record Mutant(String file, String find, String put, String breaks) {
        @Override
        public String toString() {
            return file + ": " + breaks + " [" + find + " -> " + put + "]";
        }

        /** {@return the source with the fault; however it breaks over lines, the snippet must be there once} */
        String source() throws IOException {
            String source = Files.readString(SOURCES.resolve(file + ".java"));
            Pattern snippet = Pattern.compile(
                    Stream.of(find.trim().split("\\s+")).map(Pattern::quote).collect(Collectors.joining("\\s+")));
            assertThat(snippet.matcher(source).results().count())
                    .as("how often %s.java holds the snippet: %s", file, find)
                    .isEqualTo(1);
            return snippet.matcher(source).replaceFirst(Matcher.quoteReplacement(put));
        }
    }

    static List<Mutant> mutants() throws IOException {
        return mutants(MUTANTS);
    }

    static List<Mutant> mutants(Path file) throws IOException {
        LoadSettings settings =
                LoadSettings.builder().setSchema(new FailsafeSchema()).build();
        return Yaml.maps(new Load(settings).loadFromString(Files.readString(file))).stream()
                .map(m -> new Mutant(said(m, "file"), said(m, "find"), said(m, "put"), said(m, "breaks")))
                .toList();
    }

    private static String said(Map<String, Object> mutant, String key) {
        assertThat(mutant).containsOnlyKeys("file", "find", "put", "breaks");
        return mutant.get(key).toString();
    }

    @ParameterizedTest
    @MethodSource("mutants")
    void everyFaultIsNoticed(Mutant mutant) throws Exception {
        Path classes = Files.createTempDirectory(folder, mutant.file());
        MutantLoader.compile(mutant.file(), mutant.source(), classes);
        assertThat(noticedIn(classes))
                .as("no golden house and no random one notices this fault; a golden house should: %s", mutant)
                .isNotEmpty();
    }

    @Test
    void nothingIsNoticedWhereThereIsNoFault() throws Exception {
        Path classes = Files.createTempDirectory(folder, "unchanged");
        MutantLoader.compile("Derivation", Files.readString(SOURCES.resolve("Derivation.java")), classes);
        assertThat(noticedIn(classes)).isEmpty();
    }

    /** What the houses' check says first of the derivation with these classes put in; empty where it agrees. */
    private static String noticedIn(Path classes) throws Exception {
        return noticed("org.splicebook.wiring.FirstDisagreement", classes);
    }

    /** What a check of that name says first with these classes put in; empty for nothing. */
    static String noticed(String name, Path classes) throws Exception {
        Class<?> check = Class.forName(name, true, new MutantLoader(classes));
        var constructor = check.getDeclaredConstructor();
        constructor.setAccessible(true);
        return ((Callable<?>) constructor.newInstance()).call().toString();
    }
}
