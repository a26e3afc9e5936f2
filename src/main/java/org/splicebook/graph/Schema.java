package org.splicebook.graph;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.wiring.ThingKind;

/** The uniqueness constraints and indexes, and the version of the schema. */
final class Schema {
    /** Raised when stored data has to be changed to be read by this program. */
    static final int VERSION = 4;

    private static final List<String> FURTHER_LABELS = List.of(
            "House", "Place", "Panel", "Box", "LoadPoint", "Island", "Crossing", "Loss", "OpenRegion", "Finding");

    private Schema() {}

    /** {@return the labels of the nodes that make up houses, each with a unique key} */
    static Set<String> labels() {
        Set<String> labels = new TreeSet<>(FURTHER_LABELS);
        Stream.of(ThingKind.values()).map(RowBuilder::label).forEach(labels::add);
        return labels;
    }

    /**
     * Makes what is missing.
     *
     * @throws ProblemException when the data was stored by a newer program
     */
    static void ensure(Transactions transactions) {
        PaperShelf.ensure(transactions);
        long found = transactions.read(Schema::found);
        if (found > VERSION) {
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "The store has schema version " + found + "; this program knows version " + VERSION + ".",
                    "Use the newer program."));
        }
        if (found == VERSION) {
            return;
        }
        unique(transactions, "Ledger", "house");
        unique(transactions, "Revision", "key");
        unique(transactions, "Sighting", "key");
        unique(transactions, "Draft", "key");
        unique(transactions, "Schema", "name");
        labels().forEach(l -> unique(transactions, l, "key"));
        PropertyRows.labels().forEach(l -> unique(transactions, l, "key"));
        // A property's parts are sought by the house or the load point that they name.
        transactions.alone("CREATE INDEX Unit_house IF NOT EXISTS FOR (n:Unit) ON (n.house)");
        transactions.alone("CREATE INDEX FeedLink_pointKey IF NOT EXISTS FOR (n:FeedLink) ON (n.pointKey)");
        transactions.alone("CREATE INDEX FeedLink_sourceKey IF NOT EXISTS FOR (n:FeedLink) ON (n.sourceKey)");
        transactions.alone("CREATE INDEX Meter_sourceKey IF NOT EXISTS FOR (n:Meter) ON (n.sourceKey)");
        transactions.alone("CREATE INDEX Part_house IF NOT EXISTS FOR (n:Part) ON (n.house)");
        // A thing can be sought without saying its kind, crossings and findings across houses.
        transactions.alone("CREATE INDEX Thing_key IF NOT EXISTS FOR (n:Thing) ON (n.key)");
        transactions.alone("CREATE INDEX Crossing_kind IF NOT EXISTS FOR (n:Crossing) ON (n.kind)");
        transactions.alone("CREATE INDEX Finding_rule IF NOT EXISTS FOR (n:Finding) ON (n.rule)");
        transactions.alone("CREATE INDEX Finding_severity IF NOT EXISTS FOR (n:Finding) ON (n.severity)");
        transactions.alone("CREATE INDEX Device_passed IF NOT EXISTS FOR (n:Device) ON (n.passed)");
        transactions.alone("CREATE INDEX Breaker_passed IF NOT EXISTS FOR (n:Breaker) ON (n.passed)");
        transactions.alone("CREATE INDEX House_sources IF NOT EXISTS FOR (n:House) ON (n.sources)");
        transactions.alone("CREATE INDEX House_derivation IF NOT EXISTS FOR (n:House) ON (n.derivation)");
        // An index that is still being filled is not used, and a question would look through every house.
        transactions.alone("CALL db.awaitIndexes(300)");
        transactions.write(tx -> tx.run(
                        "MERGE (s:Schema {name: 'splicebook'}) SET s.version = $version", Map.of("version", VERSION))
                .consume());
    }

    private static long found(TransactionContext tx) {
        return tx.run("MATCH (s:Schema {name: 'splicebook'}) RETURN s.version AS version").stream()
                .mapToLong(r -> r.get("version").asLong())
                .findFirst()
                .orElse(0);
    }

    private static void unique(Transactions transactions, String label, String property) {
        transactions.alone("CREATE CONSTRAINT " + label + "_" + property + " IF NOT EXISTS FOR (n:" + label
                + ") REQUIRE n." + property + " IS UNIQUE");
    }
}
