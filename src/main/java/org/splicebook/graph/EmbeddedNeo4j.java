package org.splicebook.graph;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import org.neo4j.configuration.GraphDatabaseSettings;
import org.neo4j.configuration.connectors.ConnectorPortRegister;
import org.neo4j.configuration.connectors.ConnectorType;
import org.neo4j.dbms.DatabaseStateService;
import org.neo4j.dbms.api.DatabaseManagementService;
import org.neo4j.dbms.api.DatabaseManagementServiceBuilder;
import org.neo4j.internal.helpers.HostnamePort;
import org.neo4j.io.locker.FileLockException;
import org.neo4j.kernel.internal.GraphDatabaseAPI;
import org.neo4j.logging.NullLogProvider;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * The database in this process, with its data in a folder. It listens on loopback only, on a port of the system's choice, and lets in
 * only who knows the secret in the file {@code bolt-secret} of that folder. One process has a folder at a time.
 */
public final class EmbeddedNeo4j implements AutoCloseable {
    /** The one account. */
    public static final String USER = "neo4j";

    private static final String SECRET_FILE = "bolt-secret";

    private final Path folder;
    private final FolderClaim claim;
    private final DatabaseManagementService dbms;
    private final Condition condition;
    private final URI uri;
    private final String secret;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final Thread hook;

    private EmbeddedNeo4j(Path folder, FolderClaim claim, DatabaseManagementService dbms, String secret) {
        this.folder = folder;
        this.claim = claim;
        this.dbms = dbms;
        this.condition = new Condition(folder, database());
        this.secret = secret;
        this.uri = boltAddress(dbms);
        this.hook = new Thread(this::shutdown, "splicebook-store-shutdown");
        Runtime.getRuntime().addShutdownHook(hook);
    }

    /**
     * Starts the database, making it where there is none.
     *
     * @param folder the data folder
     * @throws ProblemException with {@code STORE_AWAY} when another process has the folder or the database does not start
     */
    public static EmbeddedNeo4j start(Path folder) {
        FolderClaim claim = null;
        DatabaseManagementService dbms = null;
        try {
            Path where = folder.toAbsolutePath().normalize();
            Secret.makeFolder(where);
            claim = FolderClaim.take(where);
            Path home = where.resolve("neo4j");
            new Unfinished(where).begin(home);
            Files.createDirectories(home.resolve("import"));
            String secret = secretFor(where, home);
            dbms = build(home, true);
            requireStarted(dbms);
            ProcedureShortList.apply(dbms);
            return new EmbeddedNeo4j(where, claim, dbms, secret);
        } catch (IOException | RuntimeException e) {
            giveUp(dbms, claim);
            throw said(folder, e);
        }
    }

    private static void giveUp(@Nullable DatabaseManagementService dbms, @Nullable FolderClaim claim) {
        try {
            if (dbms != null) {
                dbms.shutdown();
            }
        } finally {
            if (claim != null) {
                claim.close();
            }
        }
    }

    /** {@return the database of houses, in this process} */
    GraphDatabaseAPI database() {
        return (GraphDatabaseAPI) dbms.database(GraphDatabaseSettings.DEFAULT_DATABASE_NAME);
    }

    /** {@return whether it has just been made, and has no schema yet} */
    boolean isBeingMade() {
        return new Unfinished(folder).isMarked();
    }

    /**
     * It has its schema, so that houses can be kept in it.
     *
     * @throws ProblemException with {@code STORE_AWAY} when that cannot be written down
     */
    void finished() {
        try {
            new Unfinished(folder).end();
        } catch (IOException e) {
            throw said(folder, e);
        }
    }

    /** {@return whether it can go on} */
    Condition condition() {
        return condition;
    }

    /** {@return where the driver reaches it} */
    public URI uri() {
        return uri;
    }

    /** {@return the password of {@link #USER}} */
    public String secret() {
        return secret;
    }

    /** {@return the file that holds the secret of a data folder} */
    public static Path secretFile(Path folder) {
        return folder.resolve(SECRET_FILE);
    }

    /** Takes a secret away that the database does not know; the next start makes a new one. */
    static void forgetSecret(Path folder) {
        try {
            boolean unused = Files.deleteIfExists(secretFile(folder));
        } catch (IOException e) {
            throw said(folder, e);
        }
    }

    /**
     * The secret on file. A database that does not exist yet is told its secret by the file that it reads when it is made, so that it never
     * listens behind its well-known first password; one whose secret was lost gets a new one while nothing listens.
     */
    private static String secretFor(Path folder, Path home) throws IOException {
        Path file = secretFile(folder);
        Optional<String> known = Secret.read(file);
        boolean made = Files.isDirectory(home.resolve("data/databases/system"));
        if (known.isPresent() && made) {
            return known.get();
        }
        String secret = Secret.random();
        if (!made) {
            Secret.write(file, secret);
            FirstPassword.write(home, secret);
            return secret;
        }
        DatabaseManagementService dbms = build(home, false);
        try {
            dbms.database(GraphDatabaseSettings.SYSTEM_DATABASE_NAME)
                    .executeTransactionally(
                            "ALTER USER " + USER + " SET PASSWORD $secret CHANGE NOT REQUIRED",
                            Map.of("secret", secret));
        } finally {
            dbms.shutdown();
        }
        Secret.write(file, secret);
        return secret;
    }

    private static DatabaseManagementService build(Path home, boolean bolt) {
        return new DatabaseManagementServiceBuilder(home)
                .setConfig(EmbeddedSettings.of(home, bolt))
                .setUserLogProvider(NullLogProvider.getInstance())
                .build();
    }

    /** One of its databases may have failed while the rest of it runs. */
    private static void requireStarted(DatabaseManagementService dbms) {
        GraphDatabaseAPI system = (GraphDatabaseAPI) dbms.database(GraphDatabaseSettings.SYSTEM_DATABASE_NAME);
        DatabaseStateService states = system.getDependencyResolver().resolveDependency(DatabaseStateService.class);
        for (String name :
                List.of(GraphDatabaseSettings.SYSTEM_DATABASE_NAME, GraphDatabaseSettings.DEFAULT_DATABASE_NAME)) {
            GraphDatabaseAPI database = (GraphDatabaseAPI) dbms.database(name);
            states.causeOfFailure(database.databaseId()).ifPresent(cause -> {
                throw new IllegalStateException(name, cause);
            });
        }
    }

    private static URI boltAddress(DatabaseManagementService dbms) {
        GraphDatabaseAPI api = (GraphDatabaseAPI) dbms.database(GraphDatabaseSettings.SYSTEM_DATABASE_NAME);
        HostnamePort address = api.getDependencyResolver()
                .resolveDependency(ConnectorPortRegister.class)
                .getLocalAddress(ConnectorType.BOLT);
        return URI.create("bolt://" + address.getHost() + ":" + address.getPort());
    }

    private static ProblemException said(Path folder, Exception e) {
        if (e instanceof ProblemException p) {
            return p;
        }
        Throwable last = e;
        for (Throwable t = e; t != null; t = t.getCause()) {
            if (t instanceof FileLockException) {
                return FolderClaim.taken(folder);
            }
            last = t;
        }
        ProblemException problem = new ProblemException(Problem.error(
                ProblemKind.STORE_AWAY,
                Where.NOWHERE,
                "The database in " + folder + " did not start: " + last.getMessage() + ".",
                "Look at the folder's rights and free space. If a file of it is damaged, put the last copy of the whole folder in"
                        + " its place, or restore an archive into another folder."));
        problem.initCause(e);
        return problem;
    }

    private void shutdown() {
        if (closed.compareAndSet(false, true)) {
            try {
                dbms.shutdown();
            } finally {
                claim.close();
            }
        }
    }

    @Override
    public void close() {
        shutdown();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The process is ending: the hook runs by itself and finds nothing to do.
        }
    }
}
