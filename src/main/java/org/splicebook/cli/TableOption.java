package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.TableFile;
import picocli.CommandLine.Option;

/** A file for spreadsheets to write a reply to. */
final class TableOption {
    @Option(
            names = "--table",
            paramLabel = "FILE",
            description = "Write the rows to a file for spreadsheets instead; its name ends in .csv or .xlsx.")
    private @Nullable Path file;

    /** {@return whether a file was named, to which the reply was written} */
    boolean write(Reply reply, Terminal terminal) {
        if (file == null) {
            return false;
        }
        TableFile.Form form = TableFile.Form.of(file.toString())
                .orElseThrow(() -> wrong(
                        ProblemKind.BAD_VALUE,
                        "The name " + file + " does not say what kind of file it is.",
                        "End it in .csv or .xlsx."));
        if (Files.exists(file)) {
            throw wrong(
                    ProblemKind.WOULD_LOSE,
                    "The file " + file + " exists; what is in it would be lost.",
                    "Choose another name.");
        }
        try {
            Files.write(file, TableFile.of(reply, form));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        terminal.out().println("Wrote " + file + ".");
        return true;
    }

    private static ProblemException wrong(ProblemKind kind, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field("--table"), message, cure));
    }
}
