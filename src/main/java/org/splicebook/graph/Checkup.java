package org.splicebook.graph;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.store.Health;

/**
 * Finds out how a store is.
 *
 * @param transactions over the database
 * @param condition of the database in this process; null for a server
 */
record Checkup(Transactions transactions, @Nullable Condition condition) {
    Health health() {
        String kind = condition == null ? "server" : "embedded";
        Optional<Problem> stopped = Optional.ofNullable(condition).flatMap(Condition::stopped);
        Optional<Problem> cramped = Optional.ofNullable(condition).flatMap(Condition::cramped);
        try {
            long start = System.nanoTime();
            transactions.ping();
            long micros = (System.nanoTime() - start) / 1000;
            String version = transactions.read(Transactions::version);
            int houses = transactions.read(Ledger::houses).size();
            String wrong = stopped.or(() -> cramped).map(Problem::said).orElse("");
            return new Health(stopped.isEmpty(), kind, version, houses, micros, wrong);
        } catch (ProblemException e) {
            String wrong = stopped.orElse(e.problems().get(0)).said();
            return new Health(false, kind, "", 0, 0, wrong);
        }
    }
}
