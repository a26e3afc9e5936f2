package org.splicebook.graph;

import java.time.Duration;
import java.util.Collection;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.AccessMode;
import org.neo4j.driver.Driver;
import org.neo4j.driver.Session;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.exceptions.AuthenticationException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.neo4j.driver.exceptions.ServiceUnavailableException;
import org.neo4j.driver.exceptions.SessionExpiredException;
import org.neo4j.driver.exceptions.value.ValueException;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Runs work in transactions and says what goes wrong as problems. Work that fails for a passing reason is run again. */
final class Transactions {
    private static final Duration READ_LIMIT = Duration.ofSeconds(60);
    private static final Duration TRIAL_LIMIT = Duration.ofSeconds(30);
    private static final Duration WRITE_LIMIT = Duration.ofMinutes(4);

    private static final int MOST_TOLD = 200;

    private final Driver driver;
    private final Door door;

    /**
     * Runs work in transactions.
     *
     * @param driver the driver, for what is run outside transactions
     * @param door the way in for everything else
     */
    Transactions(Driver driver, Door door) {
        this.driver = driver;
        this.door = door;
    }

    /** Reads. */
    <T> T read(Function<TransactionContext, T> work) {
        return said(() -> door.read(READ_LIMIT, work));
    }

    /** Writes: all of it or, when the work throws, nothing. */
    <T> T write(Function<TransactionContext, T> work) {
        return said(() -> door.write(WRITE_LIMIT, work));
    }

    /** Writes, has the work look at what was written, and takes all of it back: nobody else sees it, and nothing of it stays. */
    static <T> T trial(Door door, Function<TransactionContext, T> work) {
        try {
            door.write(TRIAL_LIMIT, tx -> {
                throw new TakenBack(work.apply(tx));
            });
            throw new IllegalStateException("A trial was not taken back.");
        } catch (TakenBack e) {
            @SuppressWarnings("unchecked")
            T outcome = (T) e.outcome;
            return outcome;
        }
    }

    /** Leaves a transaction, so that nothing of it happens, with what it came to. */
    private static final class TakenBack extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private final transient Object outcome;

        TakenBack(Object outcome) {
            super("taken back", null, false, false);
            this.outcome = outcome;
        }
    }

    /** Asks the database whether it is there, once: who asks about its state does not want to wait until it is back. */
    void ping() {
        said(() -> {
            try (Session session = DriverDoor.session(driver, AccessMode.READ)) {
                return session.run("RETURN 1").consume();
            }
        });
    }

    /** Makes the constraints and indexes that are missing, and returns when all of them can be used. */
    void index(Collection<Indexed> wanted) {
        said(() -> {
            door.index(wanted);
            return true;
        });
    }

    /** {@return the name, version and edition of the database} */
    static String version(TransactionContext tx) {
        return tx.run("CALL dbms.components() YIELD name, versions, edition"
                        + " RETURN name + ' ' + versions[0] + ' ' + edition AS version LIMIT 1")
                .single()
                .get("version")
                .asString();
    }

    private static <T> T said(Supplier<T> work) {
        try {
            return work.get();
        } catch (Neo4jException e) {
            throw problem(e);
        } catch (IllegalStateException e) {
            // The driver was closed: this store is.
            throw problem(ProblemKind.STORE_AWAY, "The store is closed.", "Open it again.", e);
        }
    }

    /** {@return what a fault of the database means to people} */
    static ProblemException problem(Neo4jException e) {
        if (e instanceof AuthenticationException) {
            return problem(
                    ProblemKind.STORE_AWAY,
                    "The database refuses the user or the password.",
                    "Give the right ones.",
                    e);
        }
        if (e instanceof ServiceUnavailableException || e instanceof SessionExpiredException) {
            return problem(
                    ProblemKind.STORE_AWAY,
                    "The database cannot be reached: " + e.getMessage(),
                    "Look whether it runs and whether its address is right.",
                    e);
        }
        if (e instanceof ValueException) {
            // Asked for what each stored thing has, it gave nothing, or a thing of another kind.
            return problem(
                    ProblemKind.STORE_AWAY,
                    "The database does not hold what was stored in it: " + shortly(e.getMessage()),
                    "Verify the store; if files of the database are damaged, take the whole data folder from its last copy, or"
                            + " restore an archive.",
                    e);
        }
        if (e.code() != null && e.code().contains("DatabaseUnavailable")) {
            return problem(
                    ProblemKind.STORE_AWAY,
                    "The database does not serve these data: it is still starting, or their files are damaged.",
                    "Wait a little; if it stays so, look into the database's own log, and take the store from its copy.",
                    e);
        }
        if (e.code() != null && e.code().contains("TransactionTimedOut")) {
            return problem(ProblemKind.TOO_SLOW, "This took longer than its limit.", "Ask for less at once.", e);
        }
        if (e.code() != null && e.code().contains("DatabaseError")) {
            return problem(
                    ProblemKind.STORE_AWAY,
                    "The database failed in this: " + shortly(e.getMessage()),
                    "Look whether its disk has room, and verify the store: if files of the database are damaged, take the"
                            + " whole data folder from its last copy, or restore an archive.",
                    e);
        }
        return problem(ProblemKind.INTERNAL, "The database reports: " + e.getMessage(), "", e);
    }

    /** What it stumbled over is told by it at any length. */
    private static String shortly(@Nullable String message) {
        String said =
                Objects.requireNonNullElse(message, "nothing more is known").replaceAll("\\.$", "");
        return (said.length() <= MOST_TOLD ? said : said.substring(0, MOST_TOLD) + " ...") + ".";
    }

    private static ProblemException problem(ProblemKind kind, String message, String cure, Exception cause) {
        ProblemException p = new ProblemException(Problem.error(kind, Where.NOWHERE, message, cure));
        p.initCause(cause);
        return p;
    }
}
