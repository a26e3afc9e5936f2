package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** A new folder for one command, taken away at its end, also when the process is told to stop. */
final class TemporaryFolder implements AutoCloseable {
    private static final int TRIES = 50;
    private static final int PAUSE_MILLIS = 100;

    private final Path folder;
    private final Thread hook = new Thread(this::delete, "splicebook-temporary-folder");

    TemporaryFolder(String prefix) throws IOException {
        folder = Files.createTempDirectory(prefix);
        Runtime.getRuntime().addShutdownHook(hook);
    }

    Path path() {
        return folder;
    }

    /** Tries for a while: a database that is closing in another thread may still write. */
    private void delete() {
        for (int i = 0; i < TRIES && Files.exists(folder); i++) {
            try {
                deleteAll(folder);
            } catch (IOException | UncheckedIOException e) {
                pause();
            }
        }
    }

    private static void deleteAll(Path top) throws IOException {
        List<Path> deepestFirst;
        try (Stream<Path> all = Files.walk(top)) {
            deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path p : deepestFirst) {
            Files.deleteIfExists(p);
        }
    }

    private static void pause() {
        try {
            Thread.sleep(PAUSE_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        delete();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The process is ending: the hook runs by itself.
        }
    }
}
