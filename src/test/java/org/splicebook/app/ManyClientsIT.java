package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.cli.Program;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.render.Json;
import org.splicebook.store.Progress;

/** Many who read and write the same houses at once: each is answered, and nothing that was acknowledged is lost. */
class ManyClientsIT {
    private static final int CLIENTS = 20;
    private static final long NANOS = TimeUnit.SECONDS.toNanos(3);
    private static final List<String> HOUSES = List.of("alder", "birch");

    @Test
    void nothingThatWasAcknowledgedIsLost(@TempDir Path folder) throws Exception {
        Splicebook program = new Splicebook(new Configuration(Map.of(), Path.of("/nowhere")));
        ExecutorService pool = Executors.newFixedThreadPool(CLIENTS);
        try (Program.Server server = program.serve(
                new Program.StoreChoice(folder, null, null, null), new Program.Listen(null, 0, List.of()))) {
            for (String id : HOUSES) {
                server.store()
                        .put(HouseFiles.parse(id, Marked.workshop(id, CLIENTS)).get(), 0, "setter", "")
                        .get();
            }
            List<Client> clients = new ArrayList<>();
            List<Future<?>> all = new ArrayList<>();
            for (int i = 1; i <= CLIENTS; i++) {
                Client client = new Client(server.url(), i);
                clients.add(client);
                all.add(pool.submit(() -> {
                    client.run();
                    return true;
                }));
            }
            for (Future<?> f : all) {
                f.get();
            }
            List<Marked.Write> writes =
                    clients.stream().flatMap(c -> c.writes.stream()).toList();
            List<Marked.Seen> seen =
                    clients.stream().flatMap(c -> c.seen.stream()).toList();
            assertThat(writes).isNotEmpty();
            assertThat(seen).hasSizeGreaterThanOrEqualTo(CLIENTS);
            Marked.check(server.store(), writes, seen, 0);
            assertThat(server.store().verify(false, Progress.NONE).differences())
                    .isEmpty();
        } finally {
            pool.shutdownNow();
        }
    }

    /** Reads, writes and tells what was seen in turn until its time is over, each at least once. */
    private static final class Client {
        private static final List<String> READ = List.of(
                "/",
                "/houses/%s",
                "/houses/%s/boxes/bench",
                "/api/v1/houses/%s/questions/what-goes-off?thing=main.3",
                "/api/v1/houses/%s/questions/half-live");

        private final HttpClient http = HttpClient.newHttpClient();
        private final String url;
        private final int number;
        private final List<Marked.Write> writes = new ArrayList<>();
        private final List<Marked.Seen> seen = new ArrayList<>();

        Client(String url, int number) {
            this.url = url;
            this.number = number;
        }

        void run() throws IOException, InterruptedException {
            long end = System.nanoTime() + NANOS;
            int turn = 1;
            do {
                String house = HOUSES.get((number + turn) % HOUSES.size());
                String read = READ.get((number + turn) % READ.size()).formatted(house);
                assertThat(send("GET", read, null).statusCode()).as(read).isEqualTo(200);
                write(house, turn);
                see(house, turn);
                turn++;
            } while (System.nanoTime() < end);
        }

        private void write(String house, int turn) throws IOException, InterruptedException {
            HttpResponse<String> read = send("GET", "/api/v1/houses/" + house, null);
            String tag = read.headers().firstValue("ETag").orElseThrow();
            HttpResponse<String> answer = send(
                    "PUT",
                    "/api/v1/houses/" + house,
                    Marked.with(read.body(), number, turn),
                    "If-Match",
                    tag,
                    "Content-Type",
                    "application/yaml");
            assertThat(answer.statusCode()).as(answer.body()).isIn(200, 412);
            if (answer.statusCode() == 200) {
                long made = Json.read(answer.body()).path("revision").asLong();
                long base = Long.parseLong(tag.substring(1, tag.indexOf('-')));
                writes.add(new Marked.Write(number, house, base, made, turn));
            }
        }

        private void see(String house, int turn) throws IOException, InterruptedException {
            String id = "seen-" + number + "-" + turn;
            String body =
                    "[{\"id\": \"%s\", \"date\": \"2026-03-14\", \"with-off\": [\"main.6\"], \"at\": \"bath-gf\", \"read\": \"not lit\"}]"
                            .formatted(id);
            for (int fresh = 1; fresh >= 0; fresh--) {
                HttpResponse<String> answer = send(
                        "POST", "/api/v1/houses/" + house + "/sightings", body, "Content-Type", "application/json");
                assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
                assertThat(Json.read(answer.body()).path("new").asInt()).as(id).isEqualTo(fresh);
            }
            seen.add(new Marked.Seen(house, id));
        }

        private HttpResponse<String> send(String method, String path, String body, String... headers)
                throws IOException, InterruptedException {
            HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(url + path))
                    .method(
                            method,
                            body == null
                                    ? HttpRequest.BodyPublishers.noBody()
                                    : HttpRequest.BodyPublishers.ofString(body));
            for (int i = 0; i < headers.length; i += 2) {
                request.header(headers[i], headers[i + 1]);
            }
            return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
        }
    }
}
