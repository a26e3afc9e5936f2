package org.splicebook.graph;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Marks a database as being made, until it has its schema. One that was left like that holds nothing that anybody was told is stored, and
 * may never start again, since it waits for ever for indexes that were being made: it is put aside, and made anew.
 *
 * @param folder the data folder
 */
record Unfinished(Path folder) {
    private static final Logger LOG = LoggerFactory.getLogger(Unfinished.class);
    private static final String MARK = "being-made";
    private static final String ASIDE = "neo4j-unfinished";

    /**
     * Puts a database aside that was never finished, and marks one that is about to be made.
     *
     * @param home the database's folder
     */
    void begin(Path home) throws IOException {
        if (Files.exists(mark()) && Files.exists(home)) {
            Files.move(home, free());
        }
        if (!Files.isDirectory(home.resolve("data/databases"))) {
            Files.writeString(mark(), "A database is being made in this folder, or was when the program ended.\n");
        }
    }

    /** {@return whether it still is being made} */
    boolean isMarked() {
        return Files.exists(mark());
    }

    /** It has all that it needs; from now on it is never put aside. */
    void end() throws IOException {
        if (Files.deleteIfExists(mark())) {
            settle();
        }
    }

    /** Else the mark might be there again after a power loss, and a database with houses in it be put aside. */
    private void settle() {
        try (FileChannel entries = FileChannel.open(folder, StandardOpenOption.READ)) {
            entries.force(true);
        } catch (IOException e) {
            LOG.debug("The entries of {} cannot be written through here", folder, e);
        }
    }

    private Path mark() {
        return folder.resolve(MARK);
    }

    private Path free() {
        Path free = folder.resolve(ASIDE);
        for (int i = 2; Files.exists(free); i++) {
            free = folder.resolve(ASIDE + "-" + i);
        }
        return free;
    }
}
