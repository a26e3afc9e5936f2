package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.splicebook.cli.Program;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.render.Json;

/** Holds docker-compose.yml to the program, without a Docker engine. */
class ComposeTest {
    private final String text = read("docker-compose.yml");
    private final JsonNode compose = Json.tree(PlainYaml.typed(text));
    private final JsonNode app = compose.path("services").path("splicebook");
    private final JsonNode neo4j = compose.path("services").path("neo4j");

    private static String read(String file) {
        try {
            return Files.readString(Path.of(file));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static Set<String> names(JsonNode node) {
        Set<String> names = new TreeSet<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }

    @Test
    void programWaitsForAHealthyDatabase() {
        assertThat(names(compose.path("services"))).containsExactlyInAnyOrder("neo4j", "splicebook");
        assertThat(app.path("depends_on").path("neo4j").path("condition").asText())
                .isEqualTo("service_healthy");
        assertThat(neo4j.path("healthcheck").has("test")).isTrue();
        assertThat(app.path("healthcheck").path("test").toString()).contains("/api/v1/health", "7391");
    }

    @Test
    void programReadsEveryVariableThatIsSet() {
        assertThat(Configuration.VARIABLES).containsAll(names(app.path("environment")));
    }

    @Test
    void variablesLeadToTheDatabaseBeside(@org.junit.jupiter.api.io.TempDir Path folder) throws IOException {
        Map<String, String> environment = new java.util.HashMap<>();
        app.path("environment")
                .properties()
                .forEach(e -> environment.put(e.getKey(), e.getValue().asText()));
        String secret = environment.put(
                Configuration.PASSWORD_FILE,
                Files.writeString(folder.resolve("auth"), "neo4j/s3cret/x\n").toString());
        assertThat(secret).isEqualTo("/run/secrets/neo4j-auth");
        Configuration configuration = new Configuration(environment, folder);
        var server = configuration
                .server(new Program.StoreChoice(null, null, null, null))
                .orElseThrow();
        assertThat(server.uri()).isEqualTo("bolt://127.0.0.1:7687");
        assertThat(server.user()).isEqualTo("neo4j");
        assertThat(server.password()).isEqualTo("s3cret/x");
        var web = configuration.web(new Program.Listen(null, null, java.util.List.of()), "9", "");
        assertThat(web.host()).isEqualTo("127.0.0.1");
        assertThat(web.port()).isEqualTo(7391);
    }

    @Test
    void nothingIsReachableFromOtherMachines() {
        neo4j.path("ports").forEach(p -> assertThat(p.asText()).startsWith("127.0.0.1:"));
        assertThat(app.path("network_mode").asText()).isEqualTo("host");
        assertThat(app.path("environment").path(Configuration.HOST).asText()).isEqualTo("127.0.0.1");
    }

    @Test
    void passwordIsASecretFileThatIsNeverCommitted() {
        String file = compose.path("secrets").path("neo4j-auth").path("file").asText();
        assertThat(file).startsWith(".secrets/");
        assertThat(read(".gitignore").lines()).contains(".secrets/");
        assertThat(read(".dockerignore").lines()).contains(".secrets");
        for (JsonNode service : new JsonNode[] {app, neo4j}) {
            assertThat(service.path("secrets").toString()).contains("neo4j-auth");
            service.path("environment").properties().stream()
                    .filter(e -> e.getKey().matches(".*(AUTH|PASSWORD).*"))
                    .forEach(e -> assertThat(e.getValue().asText()).startsWith("/run/secrets/"));
        }
    }

    @Test
    void imageIsBuiltFromWhatTheBuildMakesAndRunsWithoutRights() {
        String recipe = app.path("build").path("dockerfile_inline").asText();
        assertThat(recipe).contains("-Pimage", "target/image", "USER splicebook", "CMD [\"serve\"]");
        assertThat(read("pom.xml")).contains("<id>image</id>");
        assertThat(app.path("cap_drop").toString()).contains("ALL");
    }

    @Test
    void databaseIsTheLineThatTheDriverWasTriedWith() {
        String version = read("pom.xml").replaceAll("(?s).*<neo4j.version>([^<]+)<.*", "$1");
        assertThat(neo4j.path("image").asText()).isEqualTo("neo4j:" + version + "-community");
    }
}
