package org.splicebook.graph;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.splicebook.problem.ProblemException;
import org.splicebook.wiring.ThingKind;

/** The uniqueness constraints and indexes of all that is stored, and their versions. */
final class Schema {
    private static final List<String> FURTHER_LABELS = List.of(
            "House", "Place", "Panel", "Box", "LoadPoint", "Island", "Crossing", "Loss", "OpenRegion", "Finding");

    /** Things without nodes of their own. */
    private static final Set<ThingKind> FOLDED = EnumSet.of(ThingKind.WIRE_END, ThingKind.TERMINAL);

    /** Houses, and properties with them. */
    static final SchemaPart HOUSES = new SchemaPart("splicebook", 4, all());

    private static final List<SchemaPart> PARTS = List.of(HOUSES, PaperShelf.SCHEMA, Neo4jPeople.SCHEMA);

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
     * Makes what is missing of all that is stored.
     *
     * @param isNew whether the database has just been made, and has none of it
     * @throws ProblemException when the data was stored by a newer program; then nothing is changed
     */
    static void ensure(Transactions transactions, boolean isNew) {
        if (isNew) {
            // The first statement makes the database load what all of them need: that takes longer than to make the
            // indexes.
            var unused =
                    Begun.begin(() -> transactions.read(tx -> tx.run("RETURN 1").hasNext()));
        }
        List<SchemaPart> missing = isNew
                ? PARTS
                : transactions.read(
                        tx -> PARTS.stream().filter(p -> !p.isThere(tx)).toList());
        if (!missing.isEmpty()) {
            make(transactions, missing);
        }
    }

    private static void make(Transactions transactions, List<SchemaPart> parts) {
        transactions.index(parts.stream().flatMap(p -> p.indexes().stream()).toList());
        transactions.write(tx -> {
            parts.forEach(p -> p.done(tx));
            return true;
        });
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
