package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.cli.Program;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;

/**
 * The program as it is started, its own database in it, under fifty clients of wrk (Debian: {@code apt-get install wrk}) for three minutes:
 * everyone is answered, nothing that was acknowledged is lost, and memory stays within bounds. Prints how long answers took.
 *
 * <pre>mvn -Psoak verify -Dit.test=LoadIT -Dsplicebook.load.seconds=180 -Dsplicebook.load.clients=50</pre>
 */
@Tag("soak")
class LoadIT {
    private static final int SECONDS = Integer.getInteger("splicebook.load.seconds", 180);
    private static final int CLIENTS = Integer.getInteger("splicebook.load.clients", 50);
    private static final long MOST_HEAP_MB = 1024;
    private static final long MOST_MB = 2048;

    /** Houses to write to, each with a breaker and a load point on it. */
    private static final List<String> SMALL = List.of("alder", "birch", "cedar", "elder");

    private static final String SAMPLE = "pear-tree-house";

    private static final List<String> READS_OF_EACH = List.of(
            "page /houses/%s",
            "page /houses/%s/questions",
            "page /houses/%s/findings",
            "house /api/v1/houses/%s",
            "question /api/v1/houses/%s/questions/half-live",
            "question /api/v1/houses/%s/questions/neutral-crossings",
            "question /api/v1/houses/%s/questions/wrong-labels");
    private static final List<String> READS_OF_SMALL = List.of(
            "page /houses/%s/boxes/bench",
            "page /houses/%s/points/bath-gf",
            "question /api/v1/houses/%s/questions/what-goes-off?thing=main.6",
            "question /api/v1/houses/%s/questions/shut-off?box=bench");
    private static final List<String> READS = List.of(
            "page /",
            "house /api/v1/houses",
            "question /api/v1/questions/worst-houses",
            "page /houses/" + SAMPLE + "/points/bath-1.top",
            "page /houses/" + SAMPLE + "/panels/main/directory",
            "question /api/v1/houses/" + SAMPLE + "/questions/protected-by?point=bath-1.top",
            "question /api/v1/houses/" + SAMPLE + "/questions/what-goes-off?thing=shop-gf");

    @TempDir
    Path folder;

    private final Splicebook program = new Splicebook(new Configuration(Map.of(), Path.of("/nowhere")));

    @Test
    void everyoneIsAnsweredAndNothingThatWasAcknowledgedIsLost() throws Exception {
        assertThat(isInstalled("wrk"))
                .as("wrk is not installed: apt-get install wrk")
                .isTrue();
        Process server = start();
        Watched watched = new Watched(server.toHandle());
        List<Answer> answers;
        String said;
        try (BufferedReader out = server.inputReader(StandardCharsets.UTF_8)) {
            String line = out.readLine();
            assertThat(line).as(Files.readString(log())).startsWith("Serving at ");
            String url = line.split(" ")[2];
            load();
            warmUp(url);
            said = clients(url, watched);
            answers = answers();
        } finally {
            server.destroy();
            if (!server.waitFor(60, TimeUnit.SECONDS)) {
                server.destroyForcibly();
            }
        }
        print(answers, said, watched);
        assertThat(said).contains("failed: 0 connect, 0 read, 0 write, 0 timeout");
        assertThat(answers.stream().filter(Answer::isWrong)).isEmpty();
        assertThat(watched.most()).as("MB of memory").isLessThan(MOST_MB);
        assertThat(Files.readString(log())).doesNotContain("ERROR");
        look(answers);
    }

    private static boolean isInstalled(String name) {
        return Arrays.stream(String.valueOf(System.getenv("PATH")).split(":"))
                .anyMatch(p -> Files.isExecutable(Path.of(p, name)));
    }

    private Path data() {
        return folder.resolve("data");
    }

    private Path log() {
        return folder.resolve("log.txt");
    }

    private Program.StoreChoice here() {
        return new Program.StoreChoice(data(), null, null, null);
    }

    private Process start() throws IOException {
        List<String> command = List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + MOST_HEAP_MB + "m",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                Main.class.getName(),
                "serve",
                "--port",
                "0",
                "--data",
                data().toString());
        return new ProcessBuilder(command).redirectError(log().toFile()).start();
    }

    private void load() throws IOException {
        HouseRecordText text = new HouseRecordText();
        List<String> reads = new ArrayList<>(READS);
        List<String> houses = new ArrayList<>();
        try (HouseStore store = program.open(here())) {
            for (String id : SMALL) {
                put(store, Marked.workshop(id, CLIENTS));
                READS_OF_SMALL.forEach(r -> reads.add(r.formatted(id)));
                houses.add(id + " main.6 bath-gf");
            }
            put(
                    store,
                    Marked.places(
                            text.write(HouseFiles.read(Path.of("sample-house")).get()), CLIENTS));
            houses.add(SAMPLE + " main.9 bath-1.top");
        }
        for (String house : houses) {
            READS_OF_EACH.forEach(r -> reads.add(r.formatted(house.split(" ")[0])));
        }
        Files.write(folder.resolve("reads.txt"), reads);
        Files.write(folder.resolve("houses.txt"), houses);
    }

    /** Asks for everything once: what is measured is a server that has run for a while. */
    private void warmUp(String url) throws IOException, InterruptedException {
        HttpClient http = HttpClient.newHttpClient();
        for (String read : Files.readAllLines(folder.resolve("reads.txt"))) {
            HttpRequest request =
                    HttpRequest.newBuilder(URI.create(url + read.split(" ")[1])).build();
            assertThat(http.send(request, HttpResponse.BodyHandlers.ofString()).statusCode())
                    .as(read)
                    .isEqualTo(200);
        }
    }

    private static void put(HouseStore store, String record) {
        assertThat(record).contains("mark-" + CLIENTS + "-0");
        store.put(HouseFiles.parse("load", record).get(), 0, "setter", "").get();
    }

    private String clients(String url, Watched watched) throws Exception {
        Path said = folder.resolve("wrk.txt");
        Process wrk = new ProcessBuilder(
                        "wrk",
                        "-t" + CLIENTS,
                        "-c" + CLIENTS,
                        "-d" + SECONDS + "s",
                        "--timeout",
                        "60s",
                        "-s",
                        "src/test/resources/org/splicebook/app/load.lua",
                        url,
                        "--",
                        folder.toString())
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        try {
            while (!wrk.waitFor(1, TimeUnit.SECONDS)) {
                watched.look();
            }
        } finally {
            wrk.destroy();
        }
        return Files.readString(said);
    }

    /** What a client was told: its class, status and microseconds, and what was acknowledged. */
    private record Answer(int client, String kind, int status, long micros, List<String> told) {
        boolean isWrong() {
            boolean isRefused = kind.equals("write") && (status == 409 || status == 412);
            return status != 200 ? !isRefused : told.contains("lost");
        }
    }

    private List<Answer> answers() throws IOException {
        List<Answer> answers = new ArrayList<>();
        for (int i = 1; i <= CLIENTS; i++) {
            for (String line : Files.readAllLines(folder.resolve(i + ".txt"))) {
                List<String> words = List.of(line.split(" "));
                answers.add(new Answer(
                        i,
                        words.get(0),
                        Integer.parseInt(words.get(1)),
                        Long.parseLong(words.get(2)),
                        words.subList(3, words.size())));
            }
        }
        return answers;
    }

    /** What is stored, looked at by another process after the program has ended. */
    private void look(List<Answer> answers) {
        List<Marked.Write> writes = answers.stream()
                .filter(a -> a.status() == 200 && a.kind().equals("write"))
                .map(a -> new Marked.Write(
                        a.client(),
                        a.told().get(0),
                        Long.parseLong(a.told().get(1)),
                        Long.parseLong(a.told().get(2)),
                        Integer.parseInt(a.told().get(3))))
                .toList();
        List<Marked.Seen> seen = answers.stream()
                .filter(a -> a.status() == 200 && a.kind().equals("sighting"))
                .map(a -> new Marked.Seen(a.told().get(0), a.told().get(1)))
                .toList();
        assertThat(writes).isNotEmpty();
        assertThat(seen).isNotEmpty();
        try (HouseStore store = program.open(here())) {
            Marked.check(store, writes, seen, CLIENTS);
            assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
        }
    }

    private static void print(List<Answer> answers, String said, Watched watched) {
        System.out.println(said);
        answers.stream()
                .collect(Collectors.groupingBy(Answer::kind, TreeMap::new, Collectors.toList()))
                .forEach((kind, all) -> {
                    long[] micros =
                            all.stream().mapToLong(Answer::micros).sorted().toArray();
                    System.out.printf(
                            "%-9s %6d answers %s: p50 %.1f ms, p99 %.1f ms, longest %.1f ms%n",
                            kind,
                            micros.length,
                            all.stream()
                                    .collect(
                                            Collectors.groupingBy(Answer::status, TreeMap::new, Collectors.counting())),
                            micros[micros.length / 2] / 1000.0,
                            micros[micros.length * 99 / 100] / 1000.0,
                            micros[micros.length - 1] / 1000.0);
                });
        System.out.println(watched);
    }

    /** What the system says of a process. */
    private static final class Watched {
        private final ProcessHandle process;
        private long most;
        private Duration cpu = Duration.ZERO;

        Watched(ProcessHandle process) {
            this.process = process;
        }

        void look() throws IOException {
            String status = Files.readString(Path.of("/proc/" + process.pid() + "/status"));
            most = Long.parseLong(status.replaceAll("(?s).*VmHWM:\\s*([0-9]+) kB.*", "$1")) / 1024;
            cpu = process.info().totalCpuDuration().orElse(Duration.ZERO);
        }

        /** {@return the most memory it has had, in MB} */
        long most() {
            return most;
        }

        @Override
        public String toString() {
            return "At most " + most + " MB of memory, " + cpu.toSeconds() + " s of CPU";
        }
    }
}
