package org.splicebook.graph;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Another Java process with this class path. It ends with this one: its standard input closes. */
public final class ChildProcess {
    private final Process process;
    private final BufferedReader out;

    private ChildProcess(Process process) {
        this.process = process;
        this.out = process.inputReader(StandardCharsets.UTF_8);
    }

    /** Starts the main method of a class. */
    public static ChildProcess start(Class<?> main, List<String> arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx1g",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                main.getName()));
        command.addAll(arguments);
        try {
            return new ChildProcess(new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return the next line it says, or null when it has ended} */
    public String line() {
        try {
            return out.readLine();
        } catch (IOException e) {
            return null;
        }
    }

    /** Ends it at once, as {@code kill -9} does, and waits until it is gone. */
    public void kill() {
        process.destroyForcibly();
        await();
    }

    /** {@return its id} */
    long pid() {
        return process.pid();
    }

    /** Lets it end by itself. */
    public void end() {
        try {
            process.getOutputStream().close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        await();
    }

    private void await() {
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
