package org.splicebook.graph;

import java.util.ArrayList;
import java.util.EnumSet;
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

    /** Things without nodes of their own. */
    private static final Set<ThingKind> FOLDED = EnumSet.of(ThingKind.WIRE_END, ThingKind.TERMINAL);

    private Schema() {}

    /** {@return the labels of the nodes that make up houses, each with a unique key} */
    static Set<String> labels() {
        Set<String> labels = new TreeSet<>(FURTHER_LABELS);
        Stream.of(ThingKind.values())
                .filter(k -> !FOLDED.contains(k))
                .map(RowBuilder::label)
                .forEach(labels::add);
        return labels;
    }

    /**
     * Makes what is missing.
     *
     * @throws ProblemException when the data was stored by a newer program
     */
    static void ensure(Transactions transactions) {
        long found = transactions.read(tx -> found(tx, "splicebook"));
        requireKnown(found, VERSION);
        requireKnown(transactions.read(tx -> found(tx, PaperShelf.SCHEMA)), PaperShelf.VERSION);
        PaperShelf.ensure(transactions);
        if (found == VERSION) {
            return;
        }
        transactions.index(all());
        transactions.write(tx -> tx.run(
                        "MERGE (s:Schema {name: 'splicebook'}) SET s.version = $version", Map.of("version", VERSION))
                .consume());
    }

    private static void requireKnown(long found, long known) {
        if (found > known) {
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "A newer program wrote this store: its schema has version " + found
                            + ", and this program knows version " + known + ". Nothing was changed.",
                    "Start that program on it, or choose another data folder with --data."));
        }
    }

    private static long found(TransactionContext tx, String schema) {
        return tx.run("MATCH (s:Schema {name: $name}) RETURN s.version AS version", Map.of("name", schema)).stream()
                .mapToLong(r -> r.get("version").asLong())
                .findFirst()
                .orElse(0);
    }

    private static List<Indexed> all() {
        List<Indexed> all = new ArrayList<>(List.of(
                Indexed.unique("Ledger", "house"),
                Indexed.unique("Revision", "key"),
                Indexed.unique("Sighting", "key"),
                Indexed.unique("Draft", "key"),
                Indexed.unique("Schema", "name")));
        labels().forEach(l -> all.add(Indexed.unique(l, "key")));
        PropertyRows.labels().forEach(l -> all.add(Indexed.unique(l, "key")));
        all.addAll(List.of(
                // A property's parts are sought by the house or the load point that they name.
                Indexed.plain("Unit", "house"),
                Indexed.plain("FeedLink", "pointKey"),
                Indexed.plain("FeedLink", "sourceKey"),
                Indexed.plain("Meter", "sourceKey"),
                Indexed.plain("Part", "house"),
                // A thing can be sought without saying its kind, crossings and findings across houses.
                Indexed.plain("Thing", "key"),
                Indexed.plain("Crossing", "kind"),
                Indexed.plain("Finding", "rule"),
                Indexed.plain("Finding", "severity"),
                Indexed.plain("Device", "passed"),
                Indexed.plain("Breaker", "passed"),
                Indexed.plain("House", "sources"),
                Indexed.plain("House", "derivation")));
        return all;
    }
}
