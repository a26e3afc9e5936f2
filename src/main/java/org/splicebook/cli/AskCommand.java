package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
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

    @Mixin
    private HouseOption house = new HouseOption();

    @Option(
            names = "--why",
            paramLabel = "ROW",
            description = "Print only the rows of this subject, with all their reasons.")
    private @Nullable String only;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private TableOption table = new TableOption();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    AskCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            Reply reply = draft.ask(houses, house(houses), question, parameters);
            Reply told = only == null ? reply : reasonsOf(reply, only);
            if (!table.write(told, terminal)) {
                output.print(told, terminal);
            }
        }
        return ExitCodes.OK;
    }

    private static Reply reasonsOf(Reply reply, String subject) {
        if (!(reply instanceof Answer a)) {
            return reply;
        }
        List<Row> rows = a.rows().stream()
                .filter(r -> r.subject().equals(subject))
                .map(r -> r.ways().isEmpty()
                        ? r
                        : new Row(r.subject(), r.status(), r.basis(), r.columns(), Reason.say(r.ways()), r.ways()))
                .toList();
        if (rows.isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("--why"),
                    "The answer has no row " + subject + ".",
                    "Ask without --why to see its rows."));
        }
        return new Answer(a.heading(), "", rows, List.of(), a.assumed(), a.notProven(), a.wouldSettle(), a.cautions());
    }

    private String house(HouseStore houses) {
        boolean across = houses.questions().stream().anyMatch(q -> q.id().equals(question) && q.acrossHouses());
        return across && !house.isSaid() ? "" : house.of(houses);
    }
}
