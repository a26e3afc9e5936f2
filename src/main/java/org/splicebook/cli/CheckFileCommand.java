package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.render.ProblemText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "check-file",
        description =
                "Reads a house file, or a folder of files that make one house, and prints its problems. Stores nothing.")
final class CheckFileCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "FILE", description = "The file or folder.")
    private Path file = Path.of("");

    @Mixin
    private OutputOptions output = new OutputOptions();

    CheckFileCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Result<House> read = HouseFiles.read(file);
        List<Problem> problems = read.problems();
        if (output.json()) {
            ObjectNode o = Json.object();
            o.put("fine", read.isOk());
            o.set("problems", Json.list(problems, ProblemJson::write));
            terminal.out().println(Json.text(o));
        } else if (problems.isEmpty()) {
            terminal.out().println(file + " is fine: house " + read.get().id() + ".");
        } else {
            terminal.out().print(ProblemText.write(problems));
        }
        return ExitCodes.of(problems);
    }
}
