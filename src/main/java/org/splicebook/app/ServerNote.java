package org.splicebook.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import org.splicebook.problem.ProblemException;
import org.splicebook.render.Json;
import org.splicebook.web.ServedStore;

/** A small file in the data folder that tells where the running server listens; only its owner can read it. */
final class ServerNote {
    private static final String NAME = "server.json";

    private ServerNote() {}

    /**
     * Writes where this process serves.
     *
     * @param url where commands reach it
     * @param key what lets them in
     * @param address where others reach it; empty where none do
     */
    static void leave(Path data, String url, String key, String address) {
        ObjectNode note = Json.object();
        note.put("url", url);
        note.put("key", key);
        note.put("address", address);
        note.put("pid", ProcessHandle.current().pid());
        Path file = data.resolve(NAME);
        Path half = data.resolve(NAME + "." + ProcessHandle.current().pid());
        try {
            Files.createDirectories(data);
            Files.deleteIfExists(half);
            Files.createFile(half, ownerOnly());
            Files.writeString(half, Json.text(note));
            Files.move(half, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        } catch (FileAlreadyExistsException e) {
            throw new UncheckedIOException("another process writes " + file, e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static FileAttribute<?>[] ownerOnly() {
        return FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
    }

    /** Takes the note of this process away. */
    static void remove(Path data) {
        Path file = data.resolve(NAME);
        try {
            if (Files.exists(file)
                    && Json.read(Files.readString(file)).path("pid").asLong()
                            == ProcessHandle.current().pid()) {
                Files.delete(file);
            }
        } catch (IOException | ProblemException e) {
            // A note that is left behind is harmless: who reads it first asks whether a server is there.
            return;
        }
    }

    /** {@return where others reach the server that a note tells of; empty where none do, or none runs} */
    static Optional<String> address(Path data) {
        try {
            return find(data).isEmpty()
                    ? Optional.empty()
                    : Optional.of(Json.read(Files.readString(data.resolve(NAME)))
                                    .path("address")
                                    .asText())
                            .filter(a -> !a.isEmpty());
        } catch (IOException | ProblemException e) {
            return Optional.empty();
        }
    }

    /** {@return the store of the server that a note tells of, if one answers there} */
    static Optional<ServedStore> find(Path data) {
        Path file = data.resolve(NAME);
        if (!Files.isRegularFile(file)) {
            return Optional.empty();
        }
        try {
            JsonNode note = Json.read(Files.readString(file));
            ServedStore store = new ServedStore(
                    URI.create(note.path("url").asText()), note.path("key").asText());
            return store.isThere() ? Optional.of(store) : Optional.empty();
        } catch (IOException | ProblemException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }
}
