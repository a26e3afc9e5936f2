package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "export", description = "Writes a stored house as a house file.")
final class ExportCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "HOUSE", description = "The house's id.")
    private String house = "";

    @Option(names = "--revision", paramLabel = "NUMBER", description = "An earlier revision instead of the newest.")
    private @Nullable Long revision;

    @Option(names = "-o", paramLabel = "FILE", description = "The file to write; standard output otherwise.")
    private @Nullable Path file;

    @Option(names = "--force", description = "Overwrite the file, comments in it included.")
    private boolean force;

    @Mixin
    private StoreOptions store = new StoreOptions();

    ExportCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        String text;
        try (HouseStore houses = program.open(store.choice())) {
            text = HouseWriter.write((revision == null ? houses.findHouse(house) : houses.findRevision(house, revision))
                    .orElseThrow(() -> Houses.notFound(house))
                    .house());
        }
        if (file == null) {
            terminal.out().print(text);
        } else {
            write(file, text);
            terminal.out().println("Wrote " + file + ".");
        }
        return ExitCodes.OK;
    }

    private void write(Path target, String text) {
        if (Files.exists(target) && !force) {
            throw new ProblemException(Problem.error(
                    ProblemKind.WOULD_LOSE,
                    new Where(target.toString(), 0, 0, ""),
                    "The file exists; its comments and its layout would be lost.",
                    "Choose another name, or say --force."));
        }
        try {
            Files.writeString(target, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
