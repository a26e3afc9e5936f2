package org.splicebook.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Secrets;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import picocli.CommandLine.Option;

/** A password: from a file, or made here. It is never typed on the command line, where other users of the machine could read it. */
final class PasswordOption {
    private static final Path STANDARD_INPUT = Path.of("-");

    @Option(
            names = "--password-of",
            paramLabel = "FILE",
            description =
                    "A file with the user's password on its first line, - for standard input; without it one is made and shown once.")
    private @Nullable Path file;

    private String made = "";

    /** {@return the password} */
    String password() {
        if (file == null) {
            made = Secrets.random().substring(0, 22);
            return made;
        }
        try {
            String text = file.equals(STANDARD_INPUT)
                    ? new String(System.in.readAllBytes(), StandardCharsets.UTF_8)
                    : Files.readString(file);
            return text.lines().findFirst().orElse("");
        } catch (IOException e) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_PATH,
                    new Where(file.toString(), 0, 0, ""),
                    "The password cannot be read from here.",
                    "Name a file that can be read."));
        }
    }

    /** {@return the password where it was made here; empty where the person brought it} */
    String made() {
        return made;
    }
}
