package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Makes graphs anew that another version of this program made: few while somebody waits, many beside other work. */
final class Refreshing {
    /** As many as a question across houses waits for: about a second. */
    private static final int AT_ONCE = 10;

    private static final Logger LOG = LoggerFactory.getLogger(Refreshing.class);

    private final Transactions transactions;
    private final Verifier verifier;
    private final AtomicBoolean isRunning = new AtomicBoolean();

    Refreshing(Transactions transactions, Verifier verifier) {
        this.transactions = transactions;
        this.verifier = verifier;
    }

    /**
     * Makes the graph of one house anew, if it is not of this program.
     *
     * @throws ProblemException when its record cannot be read
     */
    void house(String id) {
        each(stale(id));
    }

    /**
     * Makes the graphs of all houses anew that are not of this program.
     *
     * @throws ProblemException when they are many: then it has begun, and goes on beside other work; and when a record cannot be read
     */
    void all() {
        List<String> stale = stale("");
        if (stale.size() <= AT_ONCE) {
            each(stale);
            return;
        }
        if (isRunning.compareAndSet(false, true)) {
            LOG.info("The graphs of {} houses are made anew", stale.size());
            var unused = Begun.begin(() -> {
                try {
                    each(stale);
                    return true;
                } finally {
                    isRunning.set(false);
                    LOG.info("The graphs of {} houses were made anew", stale.size());
                }
            });
        }
        throw new ProblemException(Problem.error(
                ProblemKind.STORE_AWAY,
                Where.NOWHERE,
                "Another version of this program stored " + stale.size()
                        + " of the houses, and their graphs are being made anew.",
                "Ask again in a while; questions about one house are answered meanwhile. While nothing is served,"
                        + " verify-store --rebuild does it."));
    }

    private List<String> stale(String house) {
        return transactions.read(tx -> Ledger.stale(tx, house));
    }

    /** One that cannot be read does not keep the others from it. */
    private void each(List<String> houses) {
        List<Problem> unread = new ArrayList<>();
        for (String id : houses) {
            boolean isDone = transactions.write(tx -> {
                Ledger.lock(tx, id);
                return verifier.rebuild(tx, id);
            });
            if (!isDone) {
                unread.add(Problem.error(
                        ProblemKind.INTERNAL,
                        Where.field(id),
                        "The graph of " + id + " is not of this program and its record cannot be read.",
                        "Verify the store, and restore an earlier revision of the house."));
            }
        }
        if (!unread.isEmpty()) {
            throw new ProblemException(unread);
        }
    }
}
