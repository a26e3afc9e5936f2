package org.splicebook.graph;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** The embedded database's password: 256 random bits in a file that only its owner can read. */
final class Secret {
    private static final Set<PosixFilePermission> OWNER = PosixFilePermissions.fromString("rw-------");
    private static final Set<PosixFilePermission> OWNER_FOLDER = PosixFilePermissions.fromString("rwx------");

    private static final Pattern WHOLE = Pattern.compile("[0-9a-f]{64}");

    private Secret() {}

    /** {@return a new one} */
    static String random() {
        byte[] bytes = new byte[32];
        new SecureRandom().nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }

    /** {@return the one in the file, if there is one and it is whole; the file is closed to others again if it was opened to them} */
    static Optional<String> read(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return Optional.empty();
        }
        restrict(file, OWNER);
        String secret = Files.readString(file, StandardCharsets.ISO_8859_1).strip();
        return WHOLE.matcher(secret).matches() ? Optional.of(secret) : Optional.empty();
    }

    /** Writes it whole or not at all; nobody else can read it at any moment. */
    static void write(Path file, String secret) throws IOException {
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        Files.deleteIfExists(fresh);
        if (isPosix(file)) {
            Files.createFile(fresh, PosixFilePermissions.asFileAttribute(OWNER));
        } else {
            Files.createFile(fresh);
            restrict(fresh, OWNER);
        }
        Files.write(fresh, (secret + "\n").getBytes(StandardCharsets.UTF_8));
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    /** Makes a folder that only its owner can enter. */
    static void makeFolder(Path folder) throws IOException {
        boolean isNew = !Files.isDirectory(folder);
        Files.createDirectories(folder);
        if (isNew) {
            restrict(folder, OWNER_FOLDER);
        }
    }

    private static void restrict(Path path, Set<PosixFilePermission> permissions) throws IOException {
        if (isPosix(path)) {
            Files.setPosixFilePermissions(path, permissions);
        } else {
            path.toFile().setReadable(false, false);
            path.toFile().setReadable(true, true);
        }
    }

    private static boolean isPosix(Path path) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix");
    }
}
