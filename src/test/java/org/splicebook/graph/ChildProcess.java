package org.splicebook.graph;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
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
        return start(main, arguments, "");
    }

    /**
     * The same.
     *
     * @param before what a shell does before, such as setting limits
     */
    static ChildProcess start(Class<?> main, List<String> arguments, String before) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx1g",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                main.getName()));
        command.addAll(arguments);
        if (!before.isEmpty()) {
            command.addAll(0, List.of("bash", "-c", before + " && exec \"$@\"", "limited"));
        }
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

    /** Tells it a line. */
    void tell(String line) {
        try {
            OutputStream in = process.getOutputStream();
            in.write((line + "\n").getBytes(StandardCharsets.UTF_8));
            in.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return how long processors have worked for it so far} */
    Duration work() {
        return process.info().totalCpuDuration().orElse(Duration.ZERO);
    }

    /** Called in such a process: it ends when its parent does, which holds the other end of standard input. */
    static void endWithTheParent() {
        Thread watch = new Thread(() -> {
            try {
                while (System.in.read() >= 0) {
                    // Nothing is said to it.
                }
            } catch (IOException e) {
                // As good as closed.
            }
            Runtime.getRuntime().halt(1);
        });
        watch.setDaemon(true);
        watch.start();
    }

    /** {@return its id} */
    public long pid() {
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
