package org.splicebook.graph;

import java.util.List;

/** Writes first revisions of houses with their rows, all in one transaction. */
interface BulkWriter {
    /**
     * Writes.
     *
     * @param kept the first revision of each house
     * @param rows its graph, in the same order
     */
    void write(List<Ledger.Kept> kept, List<GraphRows> rows);

    /** {@return one that speaks to the database as everything else does} */
    static BulkWriter over(Transactions transactions) {
        return (kept, rows) -> transactions.write(tx -> {
            if (Ledger.isKept(tx, kept.get(0))) {
                return true; // Stored at the first try, whose answer was lost on the way.
            }
            Ledger.appendNew(tx, kept);
            GraphWriter.create(tx, rows);
            return true;
        });
    }
}
