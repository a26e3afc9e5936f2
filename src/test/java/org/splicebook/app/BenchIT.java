package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.splicebook.cli.Commands;
import org.splicebook.cli.Terminal;
import org.splicebook.render.Json;

class BenchIT {
    private final Splicebook program = new Splicebook(new Configuration(Map.of(), Path.of("/nowhere")));

    @Test
    void everyQuestionIsMeasuredAloneAndAmongCopiesAndNothingIsLeftBehind() throws IOException {
        Set<String> before = temporaryFolders();
        StringWriter out = new StringWriter();
        Terminal terminal = new Terminal(new PrintWriter(out), new PrintWriter(System.err, true), 80, false);
        String[] bench = {
            "bench", "--json", "--starts", "1", "--files", "1", "--calls", "1", "--warm-up", "1", "--copies", "2"
        };
        assertThat(Commands.run(program, terminal, bench)).as(out.toString()).isZero();
        JsonNode report = Json.read(out.toString());
        assertThat(report.path("skipped")).isEmpty();
        assertThat(report.path("figures").findValuesAsText("what"))
                .anyMatch(w -> w.startsWith("cold start"))
                .anyMatch(w -> w.startsWith("house file to stored"))
                .anyMatch(w -> w.startsWith("house page, 300 load points: "))
                .anyMatch(w -> w.startsWith("search, sample house, among 2 houses: "));
        for (int houses = 1; houses <= 2; houses++) {
            assertThat(asked(report, houses)).containsAll(files()).contains("shut-off", "still-live");
        }
        assertThat(before).containsAll(temporaryFolders());
    }

    private static Set<String> asked(JsonNode report, int houses) {
        return Stream.iterate(0, i -> i < report.path("questions").size(), i -> i + 1)
                .map(i -> report.path("questions").path(i))
                .filter(q -> q.path("houses").asInt() == houses)
                .map(q -> q.path("question").asText())
                .collect(Collectors.toSet());
    }

    private static Set<String> files() throws IOException {
        try (Stream<Path> all = Files.list(Path.of("queries"))) {
            return all.map(f -> f.getFileName().toString())
                    .filter(n -> n.endsWith(".cypher"))
                    .map(n -> n.replace(".cypher", ""))
                    .collect(Collectors.toSet());
        }
    }

    private static Set<String> temporaryFolders() throws IOException {
        try (Stream<Path> all = Files.list(Path.of(System.getProperty("java.io.tmpdir")))) {
            return all.map(f -> f.getFileName().toString())
                    .filter(n -> n.startsWith("splicebook-bench-"))
                    .collect(Collectors.toSet());
        }
    }
}
