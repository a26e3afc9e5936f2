package org.splicebook.graph;

import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.DatabaseException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.neo4j.driver.exceptions.TransientException;
import org.neo4j.graphdb.QueryExecutionException;
import org.neo4j.kernel.api.exceptions.Status;

/** What the database throws in this process, as the driver would throw it. */
final class InProcessFaults {
    private static final String GQL = "50N42"; // The standard's number for "general processing exception".

    private static final String UNKNOWN = Status.General.UnknownError.code().serialize();

    private InProcessFaults() {}

    /** Does work of the database; {@return what it returns} */
    static <T> T said(Supplier<T> work) {
        try {
            return work.get();
        } catch (RuntimeException e) {
            throw said(e);
        }
    }

    private static RuntimeException said(RuntimeException e) {
        String code = isOwnFault(e) ? UNKNOWN : code(e);
        if (e instanceof Neo4jException || code == null) {
            return e;
        }
        String message = e.getMessage() == null ? code : e.getMessage();
        // Stopped by its limit or from outside: to try it again would not help, whatever it is called.
        boolean isStopped = code.contains("Transaction.Terminated") || code.contains("LockClientStopped");
        if (code.contains("TransientError") && !isStopped) {
            return new TransientException(GQL, message, code, message, Map.of(), e);
        }
        return code.contains("DatabaseError")
                ? new DatabaseException(GQL, message, code, message, Map.of(), e)
                : new ClientException(GQL, message, code, message, Map.of(), e);
    }

    /** Over its own files that are damaged the database stumbles without a name for it. */
    private static boolean isOwnFault(RuntimeException e) {
        StackTraceElement[] frames = e.getStackTrace();
        return code(e) == null
                && !(e instanceof IllegalStateException)
                && frames.length > 0
                && frames[0].getClassName().startsWith("org.neo4j.");
    }

    /** {@return the database's name for what happened, or null where it is none of the database's faults} */
    private static @Nullable String code(Throwable e) {
        for (Throwable t = e; t != null; t = t.getCause()) {
            if (t instanceof QueryExecutionException q) {
                return q.getStatusCode();
            }
            if (t instanceof Status.HasStatus s) {
                return s.status().code().serialize();
            }
        }
        return null;
    }
}
