package org.splicebook.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Each target in a process of its own, by Jazzer, which changes inputs by what they reach in the code. It fails on whatever is thrown, on
 * an input that takes longer than five seconds of the processor or a minute in all, and where memory runs out. What was found lies in {@code target/fuzz}, with the inputs
 * that reach new code, from which the next run goes on.
 *
 * <pre>mvn -Psoak verify -Dtest=none -Dit.test=FuzzIT -Dsplicebook.fuzz.seconds=60 -Dsplicebook.fuzz.targets=HOUSE,WEB</pre>
 */
@Tag("soak")
class FuzzIT {
    private static final int SECONDS = Integer.getInteger("splicebook.fuzz.seconds", 60);
    private static final String TARGETS = System.getProperty("splicebook.fuzz.targets", "");
    private static final int SEED = Integer.getInteger("splicebook.seed", 7);
    private static final String REQUESTS = "com.code_intelligence.jazzer.sanitizers.ServerSideRequestForgery";
    private static final String MEMORY = "-Xmx600m";

    static Stream<Target> targets() {
        return Stream.of(Target.values())
                .filter(t -> TARGETS.isEmpty() || List.of(TARGETS.split(",")).contains(t.name()));
    }

    @ParameterizedTest
    @MethodSource("targets")
    void nothingFallsOverHangsOrGrows(Target target) throws IOException, InterruptedException {
        Path folder = Files.createDirectories(
                        Path.of("target/fuzz").resolve(target.name().toLowerCase(java.util.Locale.ROOT)))
                .toAbsolutePath();
        Path inputs = Files.createDirectories(folder.resolve("inputs"));
        int n = 0;
        for (byte[] seed : target.seeds()) {
            Files.write(inputs.resolve("seed-" + n++), seed);
        }
        Path words = Files.writeString(
                folder.resolve("words"),
                Target.words().stream().map(w -> "\"" + w + "\"\n").collect(Collectors.joining()));
        Path log = folder.resolve("log");
        Process process = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        MEMORY,
                        "-XX:+UseSerialGC",
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        "com.code_intelligence.jazzer.Jazzer",
                        "--target_class=" + Fuzz.class.getName(),
                        "--target_args=" + target,
                        "--instrumentation_includes=" + target.packages(),
                        "--custom_hook_includes=org.splicebook.**",
                        // Sending to a server is what this one is for.
                        target == Target.WEB ? "--disabled_hooks=" + REQUESTS : "--disabled_hooks=",
                        "--reproducer_path=" + folder,
                        "-artifact_prefix=" + folder + "/found-",
                        "-dict=" + words,
                        "-max_len=20000",
                        "-seed=" + SEED,
                        "-max_total_time=" + SECONDS,
                        "-timeout=60",
                        "-rss_limit_mb=0",
                        "-print_final_stats=1",
                        inputs.toString()))
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        try {
            assertThat(process.waitFor()).as(() -> end(log)).isZero();
        } finally {
            process.destroyForcibly();
        }
    }

    private static String end(Path log) {
        try {
            List<String> lines =
                    Files.readString(log, StandardCharsets.ISO_8859_1).lines().toList();
            return log + " ends in\n" + String.join("\n", lines.subList(Math.max(0, lines.size() - 60), lines.size()));
        } catch (IOException e) {
            return log + " cannot be read";
        }
    }
}
