package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.cli.Program;
import org.splicebook.graph.ChildProcess;
import org.splicebook.graph.PlainServer;
import org.splicebook.render.Json;

/** The whole program over a database in another process that goes away and comes back. */
class AwayDatabaseIT {
    private static final String HOUSE = "/api/v1/houses/alder-row-14b";
    private static final String PASSWORD = "a ladder and two owls";
    private static final String YAML = read("src/test/resources/org/splicebook/housefile/alder-row.yaml");

    private final HttpClient http = HttpClient.newHttpClient();

    @TempDir
    Path folder;

    private ChildProcess database;
    private int port;
    private Program.Server server;

    @BeforeEach
    void start() throws IOException {
        startDatabase();
        Path file = Files.writeString(folder.resolve("password"), PASSWORD);
        Splicebook program = new Splicebook(new Configuration(Map.of(), Path.of("/nowhere")));
        server = program.serve(
                new Program.StoreChoice(folder.resolve("own"), "bolt://127.0.0.1:" + port, "neo4j", file, List.of()),
                new Program.Listen(null, 0, List.of()));
        assertThat(put(YAML, "If-None-Match", "*").statusCode()).isEqualTo(201);
    }

    @AfterEach
    void stop() {
        server.close();
        database.kill();
    }

    private void startDatabase() {
        database = ChildProcess.start(
                PlainServer.class, List.of(folder.resolve("database").toString(), String.valueOf(port), PASSWORD));
        port = URI.create(database.line().split(" ")[0]).getPort();
    }

    private static String read(String file) {
        try {
            return Files.readString(Path.of(file));
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private CompletableFuture<HttpResponse<String>> send(HttpRequest.Builder request) {
        return http.sendAsync(request.timeout(Duration.ofMinutes(1)).build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpRequest.Builder at(String path) {
        return HttpRequest.newBuilder(URI.create(server.url() + path));
    }

    private HttpResponse<String> get(String path) {
        return send(at(path)).join();
    }

    private HttpResponse<String> put(String yaml, String header, String value) {
        return send(edit(yaml, header, value)).join();
    }

    private HttpRequest.Builder edit(String yaml, String header, String value) {
        return at(HOUSE)
                .header("Content-Type", "application/yaml")
                .header(header, value)
                .PUT(HttpRequest.BodyPublishers.ofString(yaml));
    }

    private void assertAllIsWell(int revision) {
        assertThat(get("/api/v1/ready").statusCode()).isEqualTo(200);
        assertThat(Json.read(get("/api/v1/health").body()).path("wrong").asText())
                .isEmpty();
        assertThat(Json.read(get(HOUSE + "/revisions").body())).hasSize(revision);
        assertThat(get("/houses/alder-row-14b").statusCode()).isEqualTo(200);
        HttpResponse<String> asked = send(at(HOUSE + "/questions/load-points")).join();
        assertThat(asked.statusCode()).as(asked.body()).isEqualTo(200);
    }

    /** A database that has just started is slow at first. */
    private void awaitReady() {
        for (int i = 0; i < 30 && get("/api/v1/ready").statusCode() != 200; i++) {
            LockSupport.parkNanos(Duration.ofSeconds(1).toNanos());
        }
    }

    @Test
    void whileItIsAwayEveryAnswerSaysSoAndAfterwardsAllGoesOn() {
        assertAllIsWell(1);
        String tag = get(HOUSE).headers().firstValue("ETag").orElseThrow();
        String changed = YAML.replaceFirst("(?m)^name: .*$", "name: Changed");
        assertThat(changed).isNotEqualTo(YAML);
        database.kill();

        HttpResponse<String> ready = get("/api/v1/ready");
        assertThat(ready.statusCode()).isEqualTo(503);
        HttpResponse<String> health = get("/api/v1/health");
        assertThat(health.statusCode()).isEqualTo(503);
        assertThat(Json.read(health.body()).path("wrong").asText()).contains("cannot be reached", "Look whether");
        List<CompletableFuture<HttpResponse<String>>> answers = List.of(
                send(at("/api/v1/houses")),
                send(at(HOUSE)),
                send(at(HOUSE + "/questions/load-points")),
                send(at(HOUSE + "/questions/shut-off?box=kitchen")),
                send(edit(changed, "If-Match", tag)));
        List<CompletableFuture<HttpResponse<String>>> pages =
                List.of(send(at("/")), send(at("/houses/alder-row-14b")), send(at("/houses/alder-row-14b/history")));
        for (CompletableFuture<HttpResponse<String>> answer : answers) {
            HttpResponse<String> said = answer.join();
            assertThat(said.statusCode()).as(said.uri() + said.body()).isEqualTo(503);
            JsonNode problem = Json.read(said.body());
            assertThat(problem.path("type").asText()).endsWith("store-away");
            assertThat(problem.path("detail").asText()).contains("The database cannot be reached", "Look whether");
        }
        for (CompletableFuture<HttpResponse<String>> page : pages) {
            HttpResponse<String> said = page.join();
            assertThat(said.statusCode()).as(said.uri().toString()).isEqualTo(503);
            assertThat(said.body()).contains("<h2>", "The database cannot be reached");
        }

        startDatabase();
        awaitReady();
        assertAllIsWell(1);
        assertThat(put(changed, "If-Match", tag).statusCode()).isEqualTo(200);
        assertAllIsWell(2);
        assertThat(put(YAML, "If-Match", tag).statusCode())
                .as("of a revision that is not the newest")
                .isEqualTo(412);
    }

    /** A database that hangs keeps its connections, and nobody must wait for it to learn that it hangs. */
    @Test
    void healthTellsOfADatabaseThatHangsAndAfterwardsAllGoesOn() throws Exception {
        assertAllIsWell(1);
        signal("STOP");
        try {
            for (int i = 0; i < 3; i++) {
                HttpResponse<String> ready = send(at("/api/v1/ready").timeout(Duration.ofSeconds(30)))
                        .join();
                assertThat(ready.statusCode()).isEqualTo(503);
            }
            assertThat(Json.read(get("/api/v1/health").body()).path("wrong").asText())
                    .contains("does not answer");
        } finally {
            signal("CONT");
        }
        awaitReady();
        assertAllIsWell(1);
    }

    private void signal(String name) throws Exception {
        assertThat(new ProcessBuilder("kill", "-" + name, String.valueOf(database.pid()))
                        .start()
                        .waitFor())
                .isZero();
    }
}
