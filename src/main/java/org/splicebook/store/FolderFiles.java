package org.splicebook.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Files in a folder of this machine, in subfolders by the first two digits of their names. What is half written has another name. */
public final class FolderFiles implements Files {
    private static final Pattern NAME = Pattern.compile("[0-9a-f]{64}");
    private static final String HALF = ".half";
    private static final int FIRST = 2;

    private final Path folder;

    /** Keeps files there; the folder is made with the first. */
    public FolderFiles(Path folder) {
        this.folder = folder;
    }

    @Override
    public String keep(byte[] content) {
        String name = hash(content);
        Path file = path(name);
        try {
            if (find(name).isPresent()) {
                return name;
            }
            java.nio.file.Files.createDirectories(file.getParent());
            Path half = java.nio.file.Files.createTempFile(file.getParent(), name, HALF);
            try {
                java.nio.file.Files.write(half, content);
                try (FileChannel channel = FileChannel.open(half, StandardOpenOption.WRITE)) {
                    channel.force(true);
                }
                java.nio.file.Files.move(
                        half, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                // Where the disk is full, half a file would fill it for ever.
                boolean unused = java.nio.file.Files.deleteIfExists(half);
            }
            return name;
        } catch (IOException e) {
            throw away(e);
        }
    }

    @Override
    public Optional<byte[]> find(String name) {
        if (!NAME.matcher(name).matches() || !java.nio.file.Files.isRegularFile(path(name))) {
            return Optional.empty();
        }
        try {
            return Optional.of(java.nio.file.Files.readAllBytes(path(name)))
                    .filter(content -> hash(content).equals(name));
        } catch (IOException e) {
            throw away(e);
        }
    }

    @Override
    public boolean isDamaged(String name) {
        return NAME.matcher(name).matches()
                && java.nio.file.Files.isRegularFile(path(name))
                && find(name).isEmpty();
    }

    @Override
    public List<String> list() {
        List<String> all = new ArrayList<>();
        if (!java.nio.file.Files.isDirectory(folder)) {
            return all;
        }
        try (DirectoryStream<Path> parts = java.nio.file.Files.newDirectoryStream(folder)) {
            for (Path part : parts) {
                try (DirectoryStream<Path> files = java.nio.file.Files.newDirectoryStream(part)) {
                    files.forEach(f -> all.add(f.getFileName().toString()));
                }
            }
        } catch (IOException e) {
            throw away(e);
        }
        return all.stream().filter(n -> NAME.matcher(n).matches()).sorted().toList();
    }

    private Path path(String name) {
        return folder.resolve(name.substring(0, FIRST)).resolve(name);
    }

    /** {@return the name of a content} */
    public static String hash(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    private ProblemException away(IOException e) {
        return new ProblemException(Problem.error(
                ProblemKind.STORE_AWAY,
                Where.NOWHERE,
                "The folder of files, " + folder + ", cannot be used: " + e.getMessage(),
                "See that it can be written and has room."));
    }
}
