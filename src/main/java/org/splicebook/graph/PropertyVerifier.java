package org.splicebook.graph;

import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.Property;
import org.splicebook.store.PropertyText;

/**
 * Compares every property's graph (its buildings, units and common parts, links and meters) with its record, and every record with its
 * digest.
 */
final class PropertyVerifier {
    private static final String PROPERTIES = "MATCH (p:Property) RETURN p.key AS property"
            + " UNION MATCH (r:PropertyRevision) RETURN r.property AS property"
            + " UNION MATCH (n:Building|Unit|FeedLink|Meter) RETURN n.property AS property";

    private final Transactions transactions;
    private final PropertyText text;

    PropertyVerifier(Transactions transactions, PropertyText text) {
        this.transactions = transactions;
        this.text = text;
    }

    /** Adds to what differs, in words, and to what was rebuilt. */
    void verify(boolean rebuild, List<String> differences, List<String> rebuilt) {
        List<String> all = transactions.read(
                tx -> tx.run(PROPERTIES).list(r -> r.get("property").asString("")));
        for (String property : all.stream().sorted().toList()) {
            differences.addAll(transactions.read(tx -> PropertyLog.damaged(tx, property)).stream()
                    .map(n -> said(property) + ": the record of revision " + n + " is not what was stored.")
                    .toList());
            if (transactions.read(tx -> compare(tx, property)).isEmpty()) {
                continue;
            }
            // Looked at again with the property locked: a writer may have come between.
            List<String> found = transactions.write(tx -> {
                PropertyLog.lock(tx, property);
                List<String> words = compare(tx, property);
                return rebuild && !words.isEmpty() && rebuild(tx, property) ? List.<String>of() : words;
            });
            differences.addAll(found);
            if (rebuild && found.isEmpty()) {
                rebuilt.add(said(property));
            }
        }
    }

    private static String said(String property) {
        return "property " + property;
    }

    private List<String> compare(TransactionContext tx, String property) {
        try {
            Optional<PropertyLog.Kept> newest = PropertyLog.greatest(tx, property);
            List<String> expected = newest.isEmpty()
                    ? List.of()
                    : PropertyRows.lines(read(newest.get()), newest.get().revision());
            return Verifier.differences(said(property), expected, PropertyRows.lines(tx, property));
        } catch (ProblemException | UncheckedIOException e) {
            return List.of(said(property) + ": the newest record cannot be read, so its graph cannot be judged.");
        }
    }

    private boolean rebuild(TransactionContext tx, String property) {
        try {
            Optional<PropertyLog.Kept> newest = PropertyLog.greatest(tx, property);
            Optional<Property> record = newest.map(this::read);
            PropertyRows.remove(tx, property);
            newest.ifPresent(n -> PropertyLog.tie(tx, n.revision()));
            record.ifPresent(p -> PropertyRows.replace(tx, p));
            return true;
        } catch (ProblemException | UncheckedIOException e) {
            return false;
        }
    }

    private Property read(PropertyLog.Kept kept) {
        return text.readProperty(kept.record());
    }
}
