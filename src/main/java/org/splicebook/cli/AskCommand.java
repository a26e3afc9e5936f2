package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "ask", description = "Asks a question; the command questions lists them.")
final class AskCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "QUESTION", description = "The question's id.")
    private String question = "";

    @Parameters(index = "1..*", paramLabel = "NAME=VALUE", description = "The question's parameters.")
    private Map<String, String> parameters = new LinkedHashMap<>();

    @Option(
            names = "--house",
            paramLabel = "HOUSE",
            description = "The house; may be left out where only one is stored.")
    private @Nullable String house;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    AskCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            output.print(houses.ask(question, house(houses), parameters).get(), terminal);
        }
        return ExitCodes.OK;
    }

    private String house(HouseStore houses) {
        if (house != null) {
            return house;
        }
        boolean across = houses.questions().stream().anyMatch(q -> q.id().equals(question) && q.acrossHouses());
        if (across) {
            return "";
        }
        List<String> ids = houses.listHouses().stream().map(Revision::house).toList();
        if (ids.size() == 1) {
            return ids.get(0);
        }
        throw new ProblemException(Problem.error(
                ProblemKind.MISSING,
                Where.field("--house"),
                ids.isEmpty() ? "No house is stored yet." : "There are " + ids.size() + " houses.",
                ids.isEmpty()
                        ? "The command load stores one from a house file."
                        : "Say which with --house: " + String.join(", ", ids.subList(0, Math.min(10, ids.size())))
                                + "."));
    }
}
