package org.splicebook.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.splicebook.answer.Question;
import org.splicebook.render.Json;
import org.splicebook.render.QuestionJson;
import org.splicebook.render.Table;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(name = "questions", description = "Lists the questions that can be asked.")
final class QuestionsCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    QuestionsCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            List<Question> all = houses.questions();
            if (output.json()) {
                terminal.out().println(Json.text(Json.list(all, QuestionJson::write)));
            } else {
                Table table = new Table(
                        List.of("question", "in words", "parameters", "of"),
                        all.stream().map(QuestionsCommand::row).toList());
                table.lines(output.width(terminal)).forEach(terminal.out()::println);
            }
        }
        return ExitCodes.OK;
    }

    private static List<String> row(Question q) {
        List<String> parameters = q.parameters().stream()
                .map(p -> p.otherwise().isEmpty() ? p.name() + "=" : "[" + p.name() + "=" + p.otherwise() + "]")
                .toList();
        return List.of(q.id(), q.words(), String.join(" ", parameters), q.acrossHouses() ? "all houses" : "a house");
    }
}
