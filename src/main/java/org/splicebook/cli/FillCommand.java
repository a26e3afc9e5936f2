package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.render.FillJson;
import org.splicebook.render.FillText;
import org.splicebook.render.Json;
import org.splicebook.rules.fill.BoxFill;
import org.splicebook.rules.fill.BoxFills;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "fill",
        description =
                "Says how full boxes are: what each item counts, the room there is, what would still fit, what would make room.")
final class FillCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption named = new RecordOption();

    @Parameters(index = "1", arity = "0..1", paramLabel = "BOX", description = "One box; else all of them, briefly.")
    private @Nullable String box;

    @Option(
            names = "--edition",
            paramLabel = "YEAR",
            description = "The edition to count by; that of the house where none is said.")
    private @Nullable Integer edition;

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    FillCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        House record = draft.over(named.read(program).house());
        int year = edition == null ? BoxFills.edition(record) : edition;
        Wiring wiring = Derivation.derive(record);
        terminal.out().print(box == null ? all(BoxFills.of(wiring, year)) : one(wiring, box, year));
        return ExitCodes.OK;
    }

    private String all(List<BoxFill> fills) {
        if (output.json()) {
            ObjectNode o = Json.object();
            o.set("boxes", Json.list(fills, FillJson::write));
            return Json.text(draft.mark(o)) + "\n";
        }
        return draft.mark(FillText.all(fills, output.width(terminal)));
    }

    private String one(Wiring wiring, String name, int year) {
        Box found = wiring.house().boxes().get(name);
        if (found == null) {
            boolean isPanel = wiring.house().panels().containsKey(name);
            throw new ProblemException(Problem.error(
                    isPanel ? ProblemKind.BAD_VALUE : ProblemKind.NOT_FOUND,
                    Where.field("BOX"),
                    isPanel ? name + " is a panel." : "The house has no box " + name + ".",
                    isPanel
                            ? "Panels are not counted so: their room is given by their make."
                            : "The command fill without a box lists them."));
        }
        BoxFill fill = BoxFills.of(wiring, found, year);
        return output.json()
                ? Json.text(draft.mark(FillJson.write(fill))) + "\n"
                : draft.mark(FillText.one(fill, output.width(terminal)));
    }
}
