package org.splicebook.graph;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Claims a data folder for this process, and says which process has it when another does. The claim ends with the process. */
final class FolderClaim implements AutoCloseable {
    private static final String FILE = "in-use";

    private final FileChannel channel;

    private FolderClaim(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Claims the folder.
     *
     * @throws ProblemException with {@code STORE_AWAY} when another process has it
     */
    static FolderClaim take(Path folder) {
        Path file = folder.resolve(FILE);
        try {
            FileChannel channel = FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
            if (lock(channel) == null) {
                channel.close();
                throw taken(folder);
            }
            channel.truncate(0);
            channel.write(ByteBuffer.wrap(me().getBytes(StandardCharsets.UTF_8)));
            channel.force(false);
            return new FolderClaim(channel);
        } catch (IOException e) {
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "The data folder " + folder + " cannot be written: " + e.getMessage() + ".",
                    "Give a folder that this account may write."));
        }
    }

    /** {@return the problem that the folder is taken, naming who has it} */
    static ProblemException taken(Path folder) {
        String holder;
        try {
            holder = Files.readString(folder.resolve(FILE)).strip();
        } catch (IOException e) {
            holder = "";
        }
        return new ProblemException(Problem.error(
                ProblemKind.STORE_AWAY,
                Where.NOWHERE,
                "The data folder " + folder + " is in use by " + (holder.isEmpty() ? "another process" : holder) + ".",
                "Ask that process, end it, or give another data folder."));
    }

    private static @Nullable FileLock lock(FileChannel channel) throws IOException {
        try {
            return channel.tryLock();
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }

    private static String me() {
        ProcessHandle me = ProcessHandle.current();
        return "process " + me.pid()
                + me.info().command().map(c -> " (" + c + ")").orElse("") + ", since "
                + Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
