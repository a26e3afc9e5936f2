package org.splicebook.graph;

import java.util.List;
import java.util.Map;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * What is stored together and has a version of its own.
 *
 * @param name what the version is stored by
 * @param version raised when stored data has to be changed to be read by this program
 * @param indexes by what its nodes are sought
 */
record SchemaPart(String name, int version, List<Indexed> indexes) {
    /**
     * {@return whether a store has it already}
     *
     * @throws ProblemException when a newer program stored it
     */
    boolean isThere(TransactionContext tx) {
        long found = tx.run("MATCH (s:Schema {name: $name}) RETURN s.version AS version", Map.of("name", name)).stream()
                .mapToLong(r -> r.get("version").asLong())
                .findFirst()
                .orElse(0);
        if (found > version) {
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "A newer program wrote this store: its schema has version " + found
                            + ", and this program knows version " + version + ". Nothing was changed.",
                    "Start that program on it, or choose another data folder with --data."));
        }
        return found == version;
    }

    /** Says that a store has it now. */
    void done(TransactionContext tx) {
        tx.run("MERGE (s:Schema {name: $name}) SET s.version = $version", Map.of("name", name, "version", version))
                .consume();
    }
}
