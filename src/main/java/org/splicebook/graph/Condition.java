package org.splicebook.graph;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.neo4j.kernel.internal.GraphDatabaseAPI;
import org.neo4j.monitoring.DatabaseHealth;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Whether the database in this process can go on. One whose files could not be written stops for good: it has to be started again. So
 * that a full disk does not come to that, nothing is written once there is little room, and reading goes on.
 */
final class Condition {
    /** Enough for what the database still holds in memory, and for its log. */
    static final long LEAST_ROOM_BYTES = 160L << 20;

    private static final long MEBIBYTE = 1L << 20;

    private final Path folder;
    private final DatabaseHealth health;

    Condition(Path folder, GraphDatabaseAPI database) {
        this.folder = folder;
        this.health = database.getDependencyResolver().resolveDependency(DatabaseHealth.class);
    }

    /** {@return what stopped the database, and what to do; empty while it runs} */
    Optional<Problem> stopped() {
        return health.hasNoPanic()
                ? Optional.empty()
                : Optional.of(
                        problem(
                                "The database in this process stopped, since its files could not be written: "
                                        + root(health.causeOfPanic()) + ".",
                                "See that " + folder
                                        + " has room and can be written, then start the program again. What was acknowledged is kept."));
    }

    /** {@return that there is too little room to write, and what to do; empty where there is enough} */
    Optional<Problem> cramped() {
        try {
            long room = Files.getFileStore(folder).getUsableSpace();
            return room >= LEAST_ROOM_BYTES
                    ? Optional.empty()
                    : Optional.of(problem(
                            "The disk of " + folder + " has " + room / MEBIBYTE
                                    + " MiB left, and nothing is stored below " + LEAST_ROOM_BYTES / MEBIBYTE + " MiB.",
                            "Make room there; then it goes on by itself. Reading goes on meanwhile."));
        } catch (IOException e) {
            return Optional.of(problem(
                    "The folder " + folder + " cannot be reached: " + e.getMessage() + ".",
                    "See that its disk is there."));
        }
    }

    /**
     * Refuses to write where that could stop the database.
     *
     * @throws ProblemException with {@code STORE_AWAY}
     */
    void requireRoom() {
        stopped().or(this::cramped).ifPresent(p -> {
            throw new ProblemException(p);
        });
    }

    /** {@return what went wrong, by what stopped the database where something did} */
    RuntimeException said(RuntimeException e) {
        return stopped()
                .<RuntimeException>map(p -> {
                    ProblemException problem = new ProblemException(p);
                    problem.initCause(e);
                    return problem;
                })
                .orElse(e);
    }

    private static String root(Throwable cause) {
        Throwable last = cause;
        while (last.getCause() != null) {
            last = last.getCause();
        }
        return last.getMessage() == null ? last.getClass().getSimpleName() : last.getMessage();
    }

    private static Problem problem(String message, String cure) {
        return Problem.error(ProblemKind.STORE_AWAY, Where.NOWHERE, message, cure);
    }
}
