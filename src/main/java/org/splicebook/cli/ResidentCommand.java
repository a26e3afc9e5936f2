package org.splicebook.cli;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.visits.Residents;
import org.splicebook.visits.VisitKinds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "resident",
        description = {
            "Who lives in a house, as far as work has to know it. Personal: in no revision, for managers alone, each look is logged; to"
                    + " others only that somebody depends on power is told, with every shut-off.",
            "",
            "list                                     those that are kept",
            "keep --key tenant-1 name=\"...\" depends=\"breathing machine\" lasts=\"2 h\"   in the place of what was",
            "erase --key tenant-1                     for good"
        })
final class ResidentCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What to do. */
    enum Deed {
        LIST,
        KEEP,
        ERASE
    }

    @Parameters(index = "0", paramLabel = "DEED", description = "list, keep or erase.")
    private Deed deed = Deed.LIST;

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "NAME=VALUE", description = "What is known.")
    private Map<String, String> said = new LinkedHashMap<>();

    @Option(names = "--key", paramLabel = "KEY", description = "What it is kept under.")
    private String key = "";

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    ResidentCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            Residents residents = new Residents(houses);
            switch (deed) {
                case LIST -> list(residents.list(id));
                case KEEP -> {
                    residents.keep(id, key, said, Instant.now(), System.getProperty("user.name", "someone"));
                    terminal.out().println("Kept " + key + " of " + id + ".");
                }
                case ERASE -> {
                    if (!residents.erase(id, key)) {
                        throw new ProblemException(Problem.error(
                                ProblemKind.NOT_FOUND,
                                Where.field("--key"),
                                "Nobody is kept under '" + key + "' in " + id + ".",
                                "The command resident list tells the keys."));
                    }
                    terminal.out().println("Erased " + key + " of " + id + ".");
                }
            }
        }
        return ExitCodes.OK;
    }

    private void list(List<Residents.Resident> all) {
        if (output.json()) {
            terminal.out().println(Json.text(Json.list(all, r -> Json.tree(Map.of("key", r.key(), "said", r.said())))));
            return;
        }
        for (Residents.Resident r : all) {
            terminal.out().println(r.key());
            VisitKinds.resident().stream()
                    .filter(f -> !r.value(f.name()).isEmpty())
                    .forEach(f -> terminal.out().println("    " + f.label() + ": " + r.value(f.name())));
        }
        if (all.isEmpty()) {
            terminal.out().println("Nobody is kept.");
        }
    }
}
