package org.splicebook.graph;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.Optional;
import org.neo4j.driver.TransactionContext;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/**
 * Takes a house's graph from one revision to the next by writing what differs. What is stored is not read for that: it is what the
 * revision before projects to, or else something is found missing, and the whole graph is compared.
 */
final class Redrawing {
    /** Rows of houses that are remembered, counted in relationships: some ten megabytes in all for each hundred thousand. */
    private static final long TIES_REMEMBERED = 300_000;

    private final Projection projection;
    private final Cache<String, Drawn> last = Caffeine.newBuilder()
            .maximumWeight(TIES_REMEMBERED)
            .weigher((String house, Drawn d) -> d.rows().ties().size() + 1)
            .build();

    Redrawing(Projection projection) {
        this.projection = projection;
    }

    /** The graph that a revision projects to. */
    record Drawn(Revision revision, GraphRows rows) {}

    /** {@return the graph of a revision: worked out before anything is locked, unless it is remembered} */
    Drawn drawn(StoredHouse stored) {
        Drawn known = last.getIfPresent(stored.revision().house());
        return known != null && known.revision().equals(stored.revision())
                ? known
                : new Drawn(stored.revision(), projection.of(projection.derive(stored.house()), stored.revision()));
    }

    /**
     * Draws the next revision of a house that is locked.
     *
     * @param before the revision that it follows, where its graph is known
     * @param next the revision
     * @param rows its graph
     */
    void draw(TransactionContext tx, Optional<Drawn> before, Revision next, GraphRows rows) {
        boolean isDone = before.isPresent() && step(tx, before.get(), rows);
        if (!isDone) {
            GraphWriter.replace(tx, next.house(), rows);
        }
        // Should the transaction fail, no revision equals this one, and the rows are never used.
        last.put(next.house(), new Drawn(next, rows));
    }

    /** Forgets what is remembered. */
    void forget() {
        last.invalidateAll();
    }

    private static boolean step(TransactionContext tx, Drawn before, GraphRows rows) {
        GraphChange change = GraphChange.between(before.rows(), rows);
        boolean isSmall = change.size() < (rows.nodes().size() + rows.ties().size()) / 2;
        return isSmall && GraphWriter.change(tx, change, before.revision());
    }
}
