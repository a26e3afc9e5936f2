package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Question;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.survey.passes.SurveyFigures;
import org.splicebook.wiring.Derivation;

/** Measures the program on the sample house, in an empty store of its own that is thrown away afterwards. */
final class BenchRun {
    /** What can be measured by itself. */
    enum Part {
        START,
        FILE,
        QUESTIONS,
        PAGES,
        COPIES,
        SURVEY,
        PORTFOLIO
    }

    /**
     * How much is measured.
     *
     * @param parts which parts
     * @param ids only these questions; all where it is empty
     * @param starts how many cold starts
     * @param files how many times the house file is stored, after a third as many to warm up
     * @param calls how often each question is asked
     * @param warmUp how often before that
     * @param copies how many houses are in the store at last
     * @param seconds the longest that one question is measured
     * @param units how many apartments the portfolio has
     * @param keep where the portfolio's store is kept, to go on with it another time; null for a store that is taken away
     */
    record Amount(
            Set<Part> parts,
            Set<String> ids,
            int starts,
            int files,
            int calls,
            int warmUp,
            int copies,
            int seconds,
            int units,
            @Nullable Path keep) {}

    /** Breakers of the made-up houses that surveys are walked in, and how many houses of each. */
    private static final List<Integer> SURVEYED = List.of(6, 12, 24, 31, 42);

    private static final int HOUSES = 5;

    /** How often a question is asked after a change. */
    private static final int CHANGES = 5;

    private final Program program;
    private final Terminal terminal;
    private final Amount amount;
    private final BenchReport report;
    private final House sample;

    BenchRun(Program program, Terminal terminal, Amount amount) {
        this.program = program;
        this.terminal = terminal;
        this.amount = amount;
        this.report = new BenchReport(program.version());
        this.sample = HouseFiles.read(program.sampleHouse()).get();
    }

    BenchReport measure() {
        try (TemporaryFolder folder = new TemporaryFolder("splicebook-bench-")) {
            if (amount.parts().contains(Part.START)) {
                coldStarts(folder.path());
            }
            if (amount.parts().contains(Part.SURVEY)) {
                surveys();
            }
            if (amount.parts().contains(Part.PORTFOLIO)) {
                portfolio(folder.path());
            }
            if (!Set.of(Part.START, Part.SURVEY, Part.PORTFOLIO).containsAll(amount.parts())) {
                served(folder.path().resolve("served"));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return report;
    }

    private void say(String doing) {
        terminal.err().println(doing);
        terminal.err().flush();
    }

    private void surveys() {
        say("Walking surveys in made-up houses ...");
        int done = 0;
        try (Bar bar = new Bar("Walking", terminal)) {
            for (SurveyFigures.Houses kind : SurveyFigures.Houses.values()) {
                for (int breakers : SURVEYED) {
                    report.surveys.add(SurveyFigures.row(kind, breakers, HOUSES));
                    bar.at(++done, (long) SurveyFigures.Houses.values().length * SURVEYED.size(), "");
                }
            }
        }
    }

    private void coldStarts(Path folder) throws IOException {
        say("Starting the program " + amount.starts() + " times ...");
        long[] nanos = new long[amount.starts()];
        try (Bar bar = new Bar("Starting", terminal)) {
            for (int i = 0; i < nanos.length; i++) {
                nanos[i] = ColdStart.nanos(program, Files.createDirectory(folder.resolve("start-" + i)));
                bar.at(i + 1L, nanos.length, "");
            }
        }
        figure(
                "cold start: process to first answer, empty data folder",
                nanos,
                "--only start --starts " + amount.starts());
    }

    private void figure(String what, long[] nanos, String options) {
        report.figures.add(new BenchReport.Figure(what, Timings.of(nanos), "splicebook bench " + options));
    }

    private void portfolio(Path folder) throws IOException {
        BenchPortfolio bench = new BenchPortfolio(report, terminal, amount);
        try (Program.Server server = serve(folder.resolve("one"))) {
            bench.one(server);
        }
        Path data = amount.keep() == null ? folder.resolve("portfolio") : amount.keep();
        try (Program.Server server = serve(data)) {
            bench.all(server, data);
        }
    }

    private Program.Server serve(Path data) throws IOException {
        Path queries = Files.createDirectories(data.resolve("queries"));
        Files.writeString(queries.resolve(BenchQuestions.EMPTY + ".cypher"), BenchQuestions.EMPTY_FILE);
        Program.StoreChoice here = new Program.StoreChoice(data, null, null, null);
        Program.Server server = program.serve(here, new Program.Listen("127.0.0.1", 0, List.of()));
        // The environment can name a server, whose store is not ours to fill.
        if (!server.store().health().kind().equals("embedded")) {
            server.close();
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "The store is on a server, and bench measures the embedded one.",
                    "Take SPLICEBOOK_NEO4J out of the environment."));
        }
        return server;
    }

    private void served(Path data) throws IOException {
        try (Program.Server server = serve(data)) {
            HouseStore store = server.store();
            Revision stored = store.put(sample, 0, "bench", "to be measured").get();
            if (amount.parts().contains(Part.FILE)) {
                storeFile(store, stored.number());
            }
            URI url = URI.create(server.url());
            boolean hasPages = amount.parts().contains(Part.PAGES);
            boolean hasCopies = amount.parts().contains(Part.COPIES);
            boolean hasQuestions = amount.parts().contains(Part.QUESTIONS) || (hasCopies && !hasPages);
            if (hasQuestions) {
                questions(store, url, 1);
            }
            if (hasPages) {
                store.put(BenchPages.large(), 0, "bench", "to be measured").get();
                pages(url, 1);
            }
            if (hasCopies) {
                copies(store);
                if (hasQuestions) {
                    questions(store, url, amount.copies());
                }
                if (hasPages) {
                    pages(url, amount.copies());
                }
            }
        }
    }

    private void pages(URI url, int houses) {
        say("Opening pages among " + houses + (houses == 1 ? " house ..." : " houses ..."));
        new BenchPages(report, HttpClient.newHttpClient(), url, amount.calls(), amount.seconds())
                .measure(sample.id(), houses, true);
    }

    private void storeFile(HouseStore store, long first) {
        int warmUp = (amount.files() + 2) / 3;
        say("Storing the sample house " + amount.files() + " times after " + warmUp + " to warm up ...");
        long[] reads = new long[amount.files()];
        long[] derivations = new long[amount.files()];
        long[] puts = new long[amount.files()];
        long[] wholes = new long[amount.files()];
        long revision = first;
        try (Bar bar = new Bar("Storing", terminal)) {
            for (int i = -warmUp; i < amount.files(); i++) {
                int at = Math.max(0, i);
                long start = System.nanoTime();
                House house = HouseFiles.read(program.sampleHouse()).get();
                long read = System.nanoTime();
                revision =
                        store.put(house, revision, "bench", "once more").get().number();
                long put = System.nanoTime();
                var unused = Derivation.derive(house);
                derivations[at] = System.nanoTime() - put;
                reads[at] = read - start;
                puts[at] = put - read;
                wholes[at] = put - start;
                bar.at(i + warmUp + 1L, amount.files() + warmUp, "");
            }
        }
        String options = "--only file --files " + amount.files();
        figure("house file to stored: read, then put", wholes, options);
        figure("- read", reads, options);
        figure("- put: derive, and write graph and record", puts, options);
        figure("derive by itself", derivations, options);
    }

    private void copies(HouseStore store) {
        List<House> copies = new ArrayList<>();
        for (int i = 2; i <= amount.copies(); i++) {
            copies.add(copy(sample.id() + "-" + i));
        }
        say("Loading " + copies.size() + " copies of the sample house ...");
        long start = System.nanoTime();
        try (Bar bar = new Bar("Loading", terminal)) {
            var unused = new Loader(store, "bench", "a copy", bar).load(copies, false);
        }
        long each = (System.nanoTime() - start) / copies.size();
        figure(
                "loading " + copies.size() + " copies, each",
                new long[] {each},
                "--only copies --calls 1 --copies " + amount.copies());
    }

    private House copy(String id) {
        return sample.withId(id);
    }

    private void questions(HouseStore store, URI url, int houses) {
        List<Question> all = store.questions().stream()
                .filter(q -> !q.id().equals(BenchQuestions.EMPTY))
                .filter(q -> amount.ids().isEmpty() || amount.ids().contains(q.id()))
                .toList();
        say("Asking " + all.size() + " questions among " + houses + (houses == 1 ? " house ..." : " houses ..."));
        HttpClient http =
                HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
        QuestionClock clock = new QuestionClock(http, url, amount.calls(), amount.warmUp(), amount.seconds());
        if (houses == 1) {
            warmUp(new QuestionClock(http, url, 1, amount.warmUp(), amount.seconds()), all);
        }
        try (Bar bar = new Bar("Asking", terminal)) {
            Progress progress = bar;
            for (int i = 0; i < all.size(); i++) {
                Question question = all.get(i);
                Optional<Map<String, String>> parameters = BenchQuestions.parameters(question);
                if (parameters.isPresent()) {
                    question(store, clock, question, parameters.get(), houses);
                } else if (houses == 1) {
                    report.skipped.add(question.id() + ", what to ask it with is not known for it");
                }
                progress.at(i + 1L, all.size(), question.id());
            }
        }
    }

    /** What questions share gets faster with every question; without this, the first would seem slow, and growth small. */
    private void warmUp(QuestionClock clock, List<Question> all) {
        for (Question question : all) {
            try {
                var unused = BenchQuestions.parameters(question).map(p -> clock.time(question, sample.id(), p));
            } catch (ProblemException e) {
                // It is told where it is measured.
            }
        }
    }

    /** The same house as its next revision: an answer is kept for as long as there is none. */
    private void storeAgain(HouseStore store) {
        long newest = store.findHouse(sample.id()).orElseThrow().revision().number();
        store.put(sample, newest, "bench", "once more").get();
    }

    private void question(
            HouseStore store, QuestionClock clock, Question question, Map<String, String> parameters, int houses) {
        try {
            QuestionClock.Pair pair = clock.time(question, sample.id(), parameters);
            Timings anew = clock.afterChange(
                    question, sample.id(), parameters, Math.min(CHANGES, amount.calls()), () -> storeAgain(store));
            String repeat = "splicebook bench --only " + (houses == 1 ? "questions" : "copies --copies " + houses)
                    + " --question " + question.id() + " --calls " + amount.calls() + " --warm-up "
                    + amount.warmUp();
            report.asked.add(new BenchReport.Asked(
                    question.id(), parameters, houses, pair.question(), pair.empty(), anew, repeat));
        } catch (ProblemException e) {
            report.failed.add(question.id() + " among " + houses + ": "
                    + e.problems().get(0).message());
        }
    }
}
