package org.splicebook.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Starts the program in a process of its own, with an empty data folder, and waits for its first answer. */
final class ColdStart {
    private static final long LONGEST_SECONDS = 120;

    private ColdStart() {}

    /**
     * {@return nanoseconds from the start of the process to the first line of the first answer}
     *
     * @param data an empty folder
     */
    static long nanos(Program program, Path data) {
        ProcessBuilder builder = new ProcessBuilder(
                program.command(List.of("start", "--once", "--port", "0", "--data", data.toString())));
        builder.environment().keySet().removeIf(name -> name.startsWith("SPLICEBOOK_"));
        builder.redirectError(ProcessBuilder.Redirect.DISCARD);
        long start = System.nanoTime();
        try {
            Process process = builder.start();
            var unused = process.onExit()
                    .orTimeout(LONGEST_SECONDS, TimeUnit.SECONDS)
                    .whenComplete((p, late) -> {
                        if (late != null) {
                            process.destroyForcibly();
                        }
                    });
            try (BufferedReader out = process.inputReader(StandardCharsets.UTF_8)) {
                String first = out.readLine();
                long nanos = System.nanoTime() - start;
                out.lines().forEach(line -> {});
                int code = process.waitFor();
                if (first == null || code != 0) {
                    throw failed("It ended with code " + code + ".");
                }
                return nanos;
            } finally {
                process.destroyForcibly();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw failed("Interrupted while it ran.");
        }
    }

    private static ProblemException failed(String how) {
        return new ProblemException(Problem.error(
                ProblemKind.INTERNAL,
                Where.NOWHERE,
                "The program, started as a process of its own, gave no answer. " + how,
                "Run the command start with an empty data folder and see what it says."));
    }
}
