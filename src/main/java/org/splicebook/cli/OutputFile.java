package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import picocli.CommandLine.Option;

/** Where a command's text goes. */
final class OutputFile {
    @Option(
            names = {"-o", "--out"},
            paramLabel = "FILE",
            description = "The file to write; standard output otherwise.")
    private @Nullable Path file;

    @Option(names = "--force", description = "Overwrite the file, comments in it included.")
    private boolean force;

    /** Says that a file is needed, where none was said. */
    void needed() {
        if (file == null) {
            throw new ProblemException(Problem.error(
                    ProblemKind.MISSING,
                    Where.field("--out"),
                    "No file was named to write to.",
                    "Name one with --out."));
        }
    }

    /** Writes it to the file that was said, or to the terminal. */
    void write(Terminal terminal, String text) {
        if (file == null) {
            terminal.out().print(text);
            return;
        }
        write(terminal, text.getBytes(StandardCharsets.UTF_8));
    }

    /** Writes it to the file that was said. */
    void write(Terminal terminal, byte[] bytes) {
        if (file == null) {
            throw new IllegalStateException("A file is needed.");
        }
        if (Files.exists(file) && !force) {
            throw new ProblemException(Problem.error(
                    ProblemKind.WOULD_LOSE,
                    new Where(file.toString(), 0, 0, ""),
                    "The file exists; what is in it would be lost.",
                    "Choose another name, or say --force."));
        }
        try {
            Files.write(file, bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        terminal.out().println("Wrote " + file + ".");
    }
}
