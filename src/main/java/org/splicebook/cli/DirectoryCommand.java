package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.DirectoryText;
import org.splicebook.render.Json;
import org.splicebook.render.PanelDirectory;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "directory",
        description = "Writes the list for a panel's door: what each breaker really feeds, as recorded, room by room.")
final class DirectoryCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Parameters(index = "1", arity = "0..1", paramLabel = "PANEL", description = "One panel; else all of them.")
    private @Nullable String panel;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DirectoryCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        House record = draft.over(Houses.record(house, program, store));
        Wiring wiring = Derivation.derive(record);
        if (panel != null && !record.panels().containsKey(panel)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("PANEL"),
                    "The house has no panel " + panel + ".",
                    "There are " + String.join(", ", record.panels().keySet()) + "."));
        }
        List<PanelDirectory> all = (panel == null ? record.panels().keySet() : List.of(panel))
                .stream()
                        .map(p -> Objects.requireNonNull(PanelDirectory.of(wiring, p)))
                        .toList();
        if (output.json()) {
            ObjectNode o = Json.object();
            o.set("directories", Json.list(all, DirectoryText::json));
            terminal.out().print(Json.text(draft.mark(o)) + "\n");
            return ExitCodes.OK;
        }
        StringBuilder text = new StringBuilder();
        all.forEach(d -> text.append(text.isEmpty() ? "" : "\n")
                .append(DirectoryText.write(record.said(), d, output.width(terminal))));
        terminal.out().print(draft.mark(text.toString()));
        return ExitCodes.OK;
    }
}
