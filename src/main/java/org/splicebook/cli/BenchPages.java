package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;

/** Times pages as a browser asks for them, and weighs them. */
final class BenchPages {
    /** The id of the house of 300 load points. */
    static final String LARGE = "house-of-300";

    private static final int CIRCUITS = 30;
    private static final int ON_EACH = 10;
    private static final int MOST_CALLS = 200;
    private static final int WARM_UP = 20;
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final BenchReport report;
    private final HttpClient http;
    private final URI url;
    private final int calls;
    private final int seconds;

    /**
     * Pages of a server.
     *
     * @param calls how often each is asked for, at most 200 times
     * @param seconds how long one page may be measured
     */
    BenchPages(BenchReport report, HttpClient http, URI url, int calls, int seconds) {
        this.report = report;
        this.http = http;
        this.url = url;
        this.calls = Math.min(calls, MOST_CALLS);
        this.seconds = seconds;
    }

    /** Measures the first page and some of the sample house, and some of the large house where it is stored. */
    void measure(String sample, int houses, boolean isLargeStored) {
        String among = houses == 1 ? "" : ", among " + houses + " houses";
        String repeat = "splicebook bench --only " + (houses == 1 ? "pages" : "pages,copies --copies " + houses)
                + " --calls " + calls;
        String house = "/houses/" + sample;
        time("first page" + among, "/", repeat);
        time("house page, sample house" + among, house, repeat);
        time("card of a box" + among, house + "/boxes/stair-head", repeat);
        time("card of a load point" + among, house + "/points/hall-light", repeat);
        time("search, sample house" + among, house + "/search?q=hall", repeat);
        if (isLargeStored) {
            time("house page, 300 load points" + among, "/houses/" + LARGE, repeat);
            time("search, 300 load points" + among, "/houses/" + LARGE + "/search?q=room-7", repeat);
        }
    }

    private void time(String what, String path, String repeat) {
        int rest = get("/assets/style.css").length + get("/assets/htmx.js").length + get("/assets/icon.svg").length;
        int weight = get(path).length;
        long end = System.nanoTime() + Duration.ofSeconds(seconds).toNanos();
        for (int i = 0; i < Math.min(WARM_UP, calls); i++) {
            get(path);
        }
        long[] nanos = new long[calls];
        int done = 0;
        do {
            long start = System.nanoTime();
            get(path);
            nanos[done] = System.nanoTime() - start;
            done++;
        } while (done < calls && System.nanoTime() < end);
        report.figures.add(new BenchReport.Figure(
                what + ": " + (weight + rest + 999) / 1000 + " kB with all it loads",
                Timings.of(Arrays.copyOf(nanos, done)),
                repeat));
    }

    private byte[] get(String path) {
        try {
            HttpResponse<byte[]> answer = http.send(
                    HttpRequest.newBuilder(url.resolve(path)).timeout(PATIENCE).build(),
                    HttpResponse.BodyHandlers.ofByteArray());
            if (answer.statusCode() != 200) {
                throw failed("The page " + path + " answered " + answer.statusCode() + ".");
            }
            return answer.body();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw failed("Interrupted while a page was measured.");
        }
    }

    private static ProblemException failed(String message) {
        return new ProblemException(Problem.error(ProblemKind.INTERNAL, Where.NOWHERE, message, ""));
    }

    /** {@return a house of 30 circuits with ten receptacles each, one behind the other} */
    static House large() {
        StringBuilder y = new StringBuilder("splicebook: 1\nhouse: " + LARGE + "\nbasis: seen\n"
                + "complete: [cables, joints, breakers, landings]\n"
                + "sources: {service: {system: split-phase 120/240, bond: main}}\nplaces:\n");
        all(CIRCUITS, c -> "  room-" + c + ": {name: Room " + c + ", kind: bedroom}\n", y);
        y.append("panels:\n  main:\n    place: room-1\n    supply: service\n    spaces: 40\n    breakers:\n");
        all(CIRCUITS, c -> "      " + c + ": {rating: 20 A, label: Room " + c + "}\n", y);
        y.append("    joints:\n");
        all(CIRCUITS, c -> "      - [" + c + ", C" + c + "-1.black]\n", y);
        y.append("      - [n")
                .append(ends("white"))
                .append("]\n      - [g")
                .append(ends("bare"))
                .append("]\ncables:\n");
        all(CIRCUITS, c -> on(c, "  C%1$d-%2$d: {kind: NM, wires: 12/2+ground, ends: [%3$s, b%1$d-%2$d]}%n"), y);
        y.append("boxes:\n");
        all(CIRCUITS, BenchPages::boxes, y);
        return HouseFiles.parse("house of 300", y.toString()).get();
    }

    private static void all(int most, java.util.function.IntFunction<String> said, StringBuilder y) {
        IntStream.rangeClosed(1, most).mapToObj(said).forEach(y::append);
    }

    private static String ends(String wire) {
        return IntStream.rangeClosed(1, CIRCUITS)
                .mapToObj(c -> ", C" + c + "-1." + wire)
                .collect(Collectors.joining());
    }

    private static String on(int circuit, String form) {
        return IntStream.rangeClosed(1, ON_EACH)
                .mapToObj(n -> form.formatted(circuit, n, n == 1 ? "main" : "b" + circuit + "-" + (n - 1)))
                .collect(Collectors.joining());
    }

    private static String boxes(int circuit) {
        StringBuilder y = new StringBuilder();
        for (int n = 1; n <= ON_EACH; n++) {
            String name = circuit + "-" + n;
            y.append("  b")
                    .append(name)
                    .append(":\n    place: room-")
                    .append(circuit)
                    .append('\n');
            y.append("    devices: {p").append(name).append(": {kind: single-receptacle}}\n    joints:\n");
            for (String wire : List.of("black hot", "white neutral", "bare ground")) {
                String[] to = wire.split(" ");
                String on = n == ON_EACH ? "" : ", C" + circuit + "-" + (n + 1) + "." + to[0];
                y.append("      - {join: [C" + name + "." + to[0] + on + "], tail: p" + name + "." + to[1]
                        + ", by: twist-on}\n");
            }
        }
        return y.toString();
    }
}
