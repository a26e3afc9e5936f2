package org.splicebook.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemText;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "load",
        description =
                "Stores houses from house files; a folder is one house in several files. If a file has problems, none is stored.")
final class LoadCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Files or folders.")
    private List<Path> files = List.of();

    @Option(names = "--replace", description = "Store a house that exists as its next revision.")
    private boolean replace;

    @Option(names = "--why", paramLabel = "WORDS", description = "Why, for the record of revisions.")
    private String why = "loaded from a file";

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    LoadCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        List<House> read = read();
        List<Revision> made;
        try (HouseStore houses = program.open(store.choice());
                Bar bar = new Bar("Loading", terminal)) {
            made = new Loader(houses, System.getProperty("user.name", "someone"), why, bar).load(read, replace);
        }
        if (output.json()) {
            terminal.out()
                    .println(Json.text(Json.list(
                            made,
                            r -> Json.tree(Map.of(
                                    "house",
                                    r.house(),
                                    "name",
                                    r.name(),
                                    "revision",
                                    r.number(),
                                    "digest",
                                    r.digest())))));
        } else {
            made.forEach(r -> terminal.out()
                    .println("Stored " + r.house() + " (" + r.name() + ") as revision " + r.number() + "."));
        }
        return ExitCodes.OK;
    }

    private List<House> read() {
        Map<String, House> read = new LinkedHashMap<>();
        List<Problem> problems = new ArrayList<>();
        List<Problem> warnings = new ArrayList<>();
        for (Path file : files) {
            Result<House> one = HouseFiles.read(file);
            if (!one.isOk()) {
                problems.addAll(one.problems());
                continue;
            }
            warnings.addAll(one.problems());
            House house = one.get();
            if (read.put(house.id(), house) != null) {
                problems.add(Houses.twice(house.id()));
            }
        }
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        if (!warnings.isEmpty()) {
            terminal.err().print(ProblemText.write(warnings));
        }
        return List.copyOf(read.values());
    }
}
