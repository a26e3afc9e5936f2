package org.splicebook.cli;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.splicebook.answer.Question;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.property.portfolio.Portfolio;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Ref;
import org.splicebook.rewire.Moves;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;

/** Fills a store with made-up apartments and measures it: loading, size, questions with one apartment and with all, edits of one box. */
final class BenchPortfolio {
    private static final int TOGETHER = 100;
    private static final int IN_TURN = 50;
    private static final int EDITED = 40;
    private static final long SEED = 1;
    private static final Duration PATIENCE = Duration.ofMinutes(2);

    /** A box that every apartment has, with a protective receptacle. */
    private static final String BOX = "counter-1";

    private static final String DEVICE = "counter-gf";

    private final BenchReport report;
    private final Terminal terminal;
    private final Portfolio portfolio;
    private final Set<String> ids;
    private final int calls;
    private final int warmUp;
    private final int seconds;
    private final HttpClient http =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final String repeat;

    BenchPortfolio(BenchReport report, Terminal terminal, BenchRun.Amount amount) {
        this.report = report;
        this.terminal = terminal;
        this.portfolio = new Portfolio(SEED, amount.units());
        this.ids = amount.ids();
        this.calls = amount.calls();
        this.warmUp = amount.warmUp();
        this.seconds = amount.seconds();
        this.repeat = "splicebook bench --only portfolio --units " + amount.units() + " --calls " + calls;
    }

    /** Measures questions with one apartment. */
    void one(Program.Server server) {
        HouseStore store = server.store();
        store.put(portfolio.house(1), 0, "bench", "to be measured").get();
        say("Asking one apartment ...");
        questions(store, URI.create(server.url()), 1);
    }

    /**
     * Fills the store, or goes on with filling it, and measures.
     *
     * @param data the folder of the store
     */
    void all(Program.Server server, Path data) {
        HouseStore store = server.store();
        load(store);
        sizes(store, data);
        URI url = URI.create(server.url());
        say("Asking among " + portfolio.units() + " apartments ...");
        questions(store, url, portfolio.units());
        inTurn(store, url);
        say("Storing edits of one box ...");
        edits(store, url);
        Runtime runtime = Runtime.getRuntime();
        System.gc();
        count("heap in use at the end", (runtime.totalMemory() - runtime.freeMemory()) / 1e6, "MB");
        count("heap allowed", runtime.maxMemory() / 1e6, "MB");
        resident().ifPresent(mb -> count("most memory of the process, all told", mb, "MB"));
    }

    private void say(String doing) {
        terminal.err().println(doing);
        terminal.err().flush();
    }

    private void count(String what, double value, String unit) {
        report.counts.add(new BenchReport.Count(what, value, unit, repeat));
    }

    private void load(HouseStore store) {
        Set<String> there = new TreeSet<>();
        store.listHouses().forEach(r -> there.add(r.house()));
        List<String> names = portfolio.ids().toList();
        List<Integer> missing = IntStream.range(0, names.size())
                .filter(i -> !there.contains(names.get(i)))
                .boxed()
                .toList();
        say("Loading " + missing.size() + " houses" + (there.isEmpty() ? "" : ", " + there.size() + " are there")
                + " ...");
        long start = System.nanoTime();
        long cpu = cpu();
        long before = entities(store, "()");
        long tiesBefore = entities(store, "()-->()");
        try (Bar bar = new Bar("Loading", terminal)) {
            for (int from = 0; from < missing.size(); from += TOGETHER) {
                List<House> some = missing.subList(from, Math.min(missing.size(), from + TOGETHER)).parallelStream()
                        .map(portfolio::house)
                        .toList();
                var unused = store.putAll(some, "bench", "a made-up portfolio").get();
                bar.at(from + some.size(), missing.size(), some.get(0).id());
                told(start, from + some.size(), missing.size());
            }
        }
        double took = (System.nanoTime() - start) / 1e9;
        double worked = (cpu() - cpu) / 1e9;
        Set<String> known =
                store.properties().list().stream().map(r -> r.house()).collect(Collectors.toCollection(TreeSet::new));
        for (int p = 0; p < portfolio.properties(); p++) {
            var property = portfolio.property(p);
            if (!known.contains(property.id())) {
                var unused = store.properties()
                        .put(property, 0, "bench", "a made-up portfolio")
                        .get();
            }
        }
        if (!missing.isEmpty()) {
            count("houses loaded in this run", missing.size(), "");
            count("- each second, by the clock", missing.size() / took, "");
            count("- CPU of all threads, each", 1000 * worked / missing.size(), "ms");
            count("- nodes each second", (entities(store, "()") - before) / took, "");
            count("- relationships each second", (entities(store, "()-->()") - tiesBefore) / took, "");
        }
    }

    /** Where nobody looks on, a line now and then. */
    private void told(long start, int done, int all) {
        if (!terminal.attended() && (done % 1000 < TOGETHER || done == all)) {
            say(String.format("%d of %d, %.1f a second", done, all, done / ((System.nanoTime() - start) / 1e9)));
        }
    }

    private static long entities(HouseStore store, String pattern) {
        return Long.parseLong(String.valueOf(store.look("MATCH " + pattern + " RETURN count(*) AS n", 1)
                        .get()
                        .rows()
                        .get(0)
                        .get(0))
                .trim());
    }

    private void sizes(HouseStore store, Path data) {
        long nodes = entities(store, "()");
        long ties = entities(store, "()-->()");
        count("apartments", portfolio.units(), "");
        count("nodes", (double) nodes, "");
        count("relationships", (double) ties, "");
        try (Stream<Path> all = Files.walk(data)) {
            long bytes = all.mapToLong(BenchPortfolio::size).sum();
            count("store on disk, each apartment", bytes / 1e3 / portfolio.units(), "kB");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static long size(Path file) {
        try {
            return Files.isRegularFile(file) ? Files.size(file) : 0;
        } catch (IOException e) {
            return 0; // The database takes files away while it runs.
        }
    }

    private List<Question> asked(HouseStore store) {
        return store.questions().stream()
                .filter(q -> !q.id().equals(BenchQuestions.EMPTY))
                .filter(q -> ids.isEmpty() || ids.contains(q.id()))
                .filter(q -> BenchQuestions.ofApartment(q).isPresent())
                .toList();
    }

    private void questions(HouseStore store, URI url, int units) {
        String house = portfolio.unit(0);
        QuestionClock clock = new QuestionClock(http, url, calls, warmUp, seconds);
        List<Question> all = asked(store);
        try (Bar bar = new Bar("Asking", terminal)) {
            for (int i = 0; i < all.size(); i++) {
                Question q = all.get(i);
                Map<String, String> parameters = BenchQuestions.ofApartment(q).orElseThrow();
                try {
                    QuestionClock.Pair pair = clock.time(q, house, parameters);
                    report.asked.add(new BenchReport.Asked(
                            q.id(), parameters, units, pair.question(), pair.empty(), pair.question(), repeat));
                } catch (ProblemException e) {
                    report.failed.add(q.id() + " among " + units + ": "
                            + e.problems().get(0).message());
                }
                bar.at(i + 1L, all.size(), q.id());
            }
        }
    }

    /** Each question of one apartment after another, none of which was asked before in this run. */
    private void inTurn(HouseStore store, URI url) {
        Random random = new Random(SEED);
        QuestionClock clock = new QuestionClock(http, url, 1, 0, seconds);
        for (Question q : asked(store)) {
            if (q.acrossHouses()) {
                continue;
            }
            List<String> houses = IntStream.range(0, IN_TURN)
                    .mapToObj(i -> portfolio.unit(random.nextInt(portfolio.units())))
                    .toList();
            Map<String, String> parameters = BenchQuestions.ofApartment(q).orElseThrow();
            try {
                Timings t = clock.inTurn(q, houses, parameters);
                report.figures.add(new BenchReport.Figure(q.id() + ", another apartment each time", t, repeat));
            } catch (ProblemException e) {
                report.failed.add(q.id() + " in turn: " + e.problems().get(0).message());
            }
        }
    }

    private void edits(HouseStore store, URI url) {
        Random random = new Random(SEED + 1);
        List<String> houses = IntStream.range(0, EDITED + 10)
                .mapToObj(i -> portfolio.unit(random.nextInt(portfolio.units())))
                .distinct()
                .toList();
        long[][] nanos = new long[4][houses.size()];
        long[] cpu = new long[4];
        int warm = Math.min(10, houses.size() / 2);
        for (int i = 0; i < houses.size(); i++) {
            for (int kind = 0; kind < 4; kind++) {
                StoredHouse stored = store.findHouse(houses.get(i)).orElseThrow();
                House edited = kind % 2 == 0 ? labelled(stored.house(), kind) : rewired(stored.house(), kind);
                long work = cpu();
                nanos[kind][i] = put(url, stored, edited);
                cpu[kind] += i < warm ? 0 : cpu() - work;
            }
        }
        String[] said = {
            "words on a device, first edit of an apartment",
            "a wire capped, next edit of it",
            "words on a device, next edit of it",
            "the wire joined again, next edit of it"
        };
        for (int kind = 0; kind < 4; kind++) {
            report.figures.add(new BenchReport.Figure(
                    "one box edited, stored by the API: " + said[kind],
                    Timings.of(java.util.Arrays.copyOfRange(nanos[kind], warm, houses.size())),
                    repeat));
            count("- CPU of all threads: " + said[kind], cpu[kind] / 1e6 / (houses.size() - warm), "ms");
        }
    }

    private static House labelled(House house, int turn) {
        return Moves.apply(house, List.of(new Move.Label(DEVICE, "No. " + turn)))
                .get();
    }

    private static House rewired(House house, int turn) {
        List<String> reds = Objects.requireNonNull(house.boxes().get(BOX)).joints().stream()
                .filter(j -> j.members().stream().anyMatch(m -> m.said().endsWith(".red")))
                .flatMap(j -> j.members().stream())
                .filter(Ref.WireEnd.class::isInstance)
                .map(Ref::said)
                .toList();
        String red = reds.stream().filter(r -> r.endsWith(".red")).findFirst().orElseThrow();
        if (turn == 1) {
            return Moves.apply(house, List.of(new Move.Cap(BOX, red))).get();
        }
        String on = Objects.requireNonNull(house.boxes().get(BOX)).joints().stream()
                .filter(j -> j.members().size() == 1)
                .flatMap(j -> j.members().stream())
                .map(Ref::said)
                .filter(r -> r.endsWith(".black"))
                .findFirst()
                .orElseThrow();
        return Moves.apply(house, List.of(new Move.Splice(BOX, List.of(red, on), null)))
                .get();
    }

    private long put(URI url, StoredHouse before, House house) {
        String id = house.id();
        HttpRequest request = HttpRequest.newBuilder(
                        url.resolve("/api/v1/houses/" + URLEncoder.encode(id, StandardCharsets.UTF_8)))
                .header("Content-Type", "application/yaml")
                .header(
                        "If-Match",
                        "\"" + before.revision().number() + "-"
                                + before.revision().digest() + "\"")
                .timeout(PATIENCE)
                .PUT(HttpRequest.BodyPublishers.ofString(HouseWriter.write(house)))
                .build();
        long start = System.nanoTime();
        try {
            HttpResponse<String> answer = http.send(request, HttpResponse.BodyHandlers.ofString());
            long nanos = System.nanoTime() - start;
            if (answer.statusCode() != 200) {
                throw failed("An edit was answered with " + answer.statusCode() + ": " + answer.body());
            }
            return nanos;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw failed("Interrupted while an edit was stored.");
        }
    }

    private static ProblemException failed(String message) {
        return new ProblemException(Problem.error(ProblemKind.INTERNAL, Where.NOWHERE, message, ""));
    }

    private static long cpu() {
        return ManagementFactory.getOperatingSystemMXBean() instanceof OperatingSystemMXBean os
                ? os.getProcessCpuTime()
                : 0;
    }

    private static Optional<Double> resident() {
        try {
            return Files.readAllLines(Path.of("/proc/self/status")).stream()
                    .filter(l -> l.startsWith("VmHWM:"))
                    .map(l -> Double.parseDouble(l.replaceAll("[^0-9]", "")) / 1000)
                    .findFirst();
        } catch (IOException e) {
            return Optional.empty(); // Not Linux.
        }
    }
}
