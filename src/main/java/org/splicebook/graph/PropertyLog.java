package org.splicebook.graph;

import static java.util.Map.entry;

import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Property;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.PropertyText;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredProperty;

/** Properties in Neo4j: every revision whole, and the newest as graph, in one transaction. */
final class PropertyLog implements PropertyStore {
    private static final String COLUMNS =
            " RETURN r.property AS property, r.name AS name, r.number AS number, r.stored AS stored, r.who AS who, r.why AS why,"
                    + " r.digest AS digest";
    private static final String WITH_RECORD = COLUMNS + ", r.token AS token, r.record AS record";
    /** As with houses ({@link Ledger}), the revision before is the newest until an index finds the one that the property tells of. */
    private static final String NEWEST_OF = " CALL (p) { UNWIND [p.newest, p.newest - 1] AS number"
            + " MATCH (r:PropertyRevision {key: p.key + '/' + toString(number)}) RETURN r ORDER BY r.number DESC LIMIT 1 }";

    private static final String NEWEST = "MATCH (p:Property {key: $property})" + NEWEST_OF + WITH_RECORD;

    private final Transactions transactions;
    private final PropertyText text;
    private final Clock clock;

    PropertyLog(Transactions transactions, PropertyText text, Clock clock) {
        this.transactions = transactions;
        this.text = text;
        this.clock = clock;
    }

    /** A revision as it is kept. */
    record Kept(Revision revision, String token, String record) {}

    /** {@return the revision with the greatest number, also where the property's own node is lost} */
    static Optional<Kept> greatest(TransactionContext tx, String property) {
        return kept(
                tx,
                "MATCH (r:PropertyRevision) WHERE r.key STARTS WITH $property + '/' WITH r ORDER BY r.number DESC LIMIT 1"
                        + WITH_RECORD,
                Map.of("property", property));
    }

    /** {@return the numbers of the revisions whose record is not what was stored} */
    static List<Long> damaged(TransactionContext tx, String property) {
        return tx
                .run(
                        "MATCH (r:PropertyRevision) WHERE r.key STARTS WITH $property + '/'" + WITH_RECORD
                                + " ORDER BY number",
                        Map.of("property", property))
                .list(r -> r)
                .stream()
                .filter(r -> !isIntact(r))
                .map(r -> r.get("number").asLong())
                .toList();
    }

    private static boolean isIntact(Record row) {
        try {
            String record = Packed.kept(row.get("record").asByteArray()).text();
            return Packed.digest(record).equals(row.get("digest").asString());
        } catch (UncheckedIOException e) {
            return false;
        }
    }

    /** Ties all revisions to the property's node, which is made where it is lost, and makes this one the newest. */
    static void tie(TransactionContext tx, Revision newest) {
        tx.run(
                        "MERGE (p:Property {key: $property}) SET p.newest = $number, p.name = $name"
                                + " WITH p MATCH (r:PropertyRevision) WHERE r.key STARTS WITH $property + '/'"
                                + " MERGE (p)-[:HAS]->(r)",
                        Map.of("property", newest.house(), "number", newest.number(), "name", newest.name()))
                .consume();
    }

    @Override
    public List<Revision> list() {
        return transactions.read(tx -> tx.run("MATCH (p:Property)" + NEWEST_OF + COLUMNS + " ORDER BY property")
                .list(PropertyLog::revision));
    }

    @Override
    public Optional<StoredProperty> find(String id) {
        return transactions.read(tx -> kept(tx, NEWEST, Map.of("property", id))).map(this::stored);
    }

    @Override
    public Optional<StoredProperty> findRevision(String id, long revision) {
        return transactions
                .read(tx -> kept(
                        tx,
                        "MATCH (r:PropertyRevision {key: $property + '/' + toString($number)})" + WITH_RECORD,
                        Map.of("property", id, "number", revision)))
                .map(this::stored);
    }

    @Override
    public List<Revision> revisions(String id) {
        return transactions.read(tx -> tx.run(
                        "MATCH (:Property {key: $property})-[:HAS]->(r:PropertyRevision)" + COLUMNS
                                + " ORDER BY number",
                        Map.of("property", id))
                .list(PropertyLog::revision));
    }

    @Override
    public Result<Revision> put(Property property, long expected, String who, String why) {
        String record = text.writeProperty(property);
        String token = Secret.random();
        try {
            return Result.ok(transactions.write(tx -> put(tx, property, record, token, expected, who, why)));
        } catch (Refusal e) {
            return Result.failed(e.problem());
        }
    }

    @Override
    public Result<Revision> restore(List<StoredProperty> past) {
        String id = past.get(0).property().id();
        String token = Secret.random();
        try {
            return Result.ok(transactions.write(tx -> {
                lockNew(tx, id);
                Optional<Kept> there = kept(tx, NEWEST, Map.of("property", id));
                if (there.isPresent() && !there.get().token().equals(token)) {
                    throw new Refusal(Problem.error(
                            ProblemKind.CONFLICT,
                            Where.field(id),
                            "The property " + id + " is in the store.",
                            "Restore into a store that does not hold it."));
                }
                Revision last = past.get(past.size() - 1).revision();
                for (StoredProperty p : there.isPresent() ? List.<StoredProperty>of() : past) {
                    String record = text.writeProperty(p.property());
                    last = p.revision().withDigest(Packed.digest(record));
                    append(tx, last, token, record);
                    PropertyRows.replace(tx, p.property());
                }
                return last;
            }));
        } catch (Refusal e) {
            return Result.failed(e.problem());
        }
    }

    /** Locks a property for writing until the transaction ends, if its node is there. */
    static void lock(TransactionContext tx, String property) {
        InProcessTransaction.changes(tx, "property " + property);
        // Setting a property takes the lock; what is read after that is what the last writer left.
        tx.run("MATCH (p:Property {key: $property}) SET p.lock = true", Map.of("property", property))
                .consume();
    }

    /** The same, making its node where there is none. */
    private static void lockNew(TransactionContext tx, String property) {
        tx.run("MERGE (p:Property {key: $property}) SET p.lock = true", Map.of("property", property))
                .consume();
        lock(tx, property);
    }

    private static void append(TransactionContext tx, Revision next, String token, String record) {
        tx.run(
                        "MATCH (p:Property {key: $r.property}) CREATE (p)-[:HAS]->(r:PropertyRevision) SET r = $r,"
                                + " p.newest = $r.number, p.name = $r.name",
                        Map.of("r", row(next, token, record)))
                .consume();
    }

    private Revision put(
            TransactionContext tx,
            Property property,
            String record,
            String token,
            long expected,
            String who,
            String why) {
        lockNew(tx, property.id());
        Optional<Kept> newest = kept(tx, NEWEST, Map.of("property", property.id()));
        if (newest.isPresent() && newest.get().token().equals(token)) {
            return newest.get().revision(); // Stored at the first try, whose answer was lost on the way.
        }
        long number = newest.map(k -> k.revision().number()).orElse(0L);
        if (number != expected) {
            throw new Refusal(Problem.error(
                    ProblemKind.STALE,
                    Where.field(property.id()),
                    number == 0
                            ? "There is no property " + property.id() + "."
                            : "The newest revision of the property " + property.id() + " is " + number + ", not "
                                    + expected + ".",
                    "Take the newest revision, make the change in it, and store that."));
        }
        Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
        Instant last = newest.map(k -> k.revision().stored()).orElse(now);
        Revision next = new Revision(
                property.id(),
                property.said(),
                number + 1,
                last.isAfter(now) ? last : now,
                who,
                why,
                false,
                Packed.digest(record));
        append(tx, next, token, record);
        PropertyRows.replace(tx, property);
        return next;
    }

    private static Map<String, Object> row(Revision r, String token, String record) {
        return Map.ofEntries(
                entry("key", r.house() + "/" + r.number()),
                entry("property", r.house()),
                entry("number", r.number()),
                entry("name", r.name()),
                entry("stored", r.stored().atZone(ZoneOffset.UTC)),
                entry("who", r.who()),
                entry("why", r.why()),
                entry("digest", r.digest()),
                entry("token", token),
                entry("record", Packed.of(record).bytes()));
    }

    private static Optional<Kept> kept(TransactionContext tx, String cypher, Map<String, Object> parameters) {
        return tx
                .run(cypher, parameters)
                .list(r -> new Kept(
                        revision(r),
                        r.get("token").asString(),
                        Packed.kept(r.get("record").asByteArray()).text()))
                .stream()
                .findFirst();
    }

    private StoredProperty stored(Kept kept) {
        return new StoredProperty(text.readProperty(kept.record()), kept.revision());
    }

    private static Revision revision(Record row) {
        return new Revision(
                row.get("property").asString(),
                row.get("name").asString(),
                row.get("number").asLong(),
                row.get("stored").asZonedDateTime().toInstant(),
                row.get("who").asString(),
                row.get("why").asString(),
                false,
                row.get("digest").asString());
    }
}
