package org.splicebook.graph;

import static java.util.Map.entry;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.graphdb.Transaction;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.Past;
import org.splicebook.store.RecordText;
import org.splicebook.store.Revision;

/** The revisions of each house: written once, never changed. Every method works within a transaction of its caller. */
final class Ledger {
    private static final String COLUMNS =
            " RETURN r.house AS house, r.name AS name, r.number AS number, r.stored AS stored, r.who AS who, r.why AS why,"
                    + " r.deleted AS deleted, r.digest AS digest, r.token AS token";
    private static final String WITH_RECORD = COLUMNS + ", r.record AS record";

    /**
     * A reader may see the ledger tell of a revision that an index does not find yet: the database shows what it writes before it has all
     * of it in its indexes. Until then the revision before is the newest.
     */
    private static final String NEWEST = "MATCH (l:Ledger {house: $house}) UNWIND [l.newest, l.newest - 1] AS number"
            + " MATCH (r:Revision {key: $house + '/' + toString(number)}) WITH r ORDER BY r.number DESC LIMIT 1"
            + WITH_RECORD;

    private Ledger() {}

    /** A revision and its packed record. */
    record Kept(Revision revision, Packed record, String token) {}

    /** Locks a house for writing until the transaction ends, making its ledger where there is none; {@return its newest revision}. */
    static Optional<Kept> lock(TransactionContext tx, String house) {
        InProcessTransaction.changes(tx, house);
        // Setting a property takes the lock; what is read after that is what the last writer left.
        tx.run("MERGE (l:Ledger {house: $house}) SET l.lock = true", Map.of("house", house))
                .consume();
        return newest(tx, house);
    }

    /** Keeps a house as it is until the transaction ends, where the database is in this process. Does not wait elsewhere. */
    static void hold(TransactionContext tx, String house) {
        InProcessTransaction.hold(tx, "Ledger", "house", house);
    }

    /** {@return the newest revision, a deletion too} */
    static Optional<Kept> newest(TransactionContext tx, String house) {
        return first(tx, NEWEST, Map.of("house", house));
    }

    /** {@return one revision} */
    static Optional<Kept> find(TransactionContext tx, String house, long number) {
        return first(
                tx,
                "MATCH (r:Revision {key: $house + '/' + toString($number)})" + WITH_RECORD,
                Map.of("house", house, "number", number));
    }

    /** {@return whether a revision is there, written by the same write} */
    static boolean isKept(TransactionContext tx, Kept kept) {
        return find(tx, kept.revision().house(), kept.revision().number())
                .filter(k -> k.token().equals(kept.token()))
                .isPresent();
    }

    /** {@return the last revision stored at or before a moment} */
    static Optional<Kept> asOf(TransactionContext tx, String house, Instant moment) {
        return first(
                tx,
                "MATCH (:Ledger {house: $house})-[:HAS]->(r:Revision) WHERE r.stored <= $moment"
                        + " WITH r ORDER BY r.number DESC LIMIT 1" + WITH_RECORD,
                Map.of("house", house, "moment", moment.atZone(ZoneOffset.UTC)));
    }

    /** {@return every revision, oldest first} */
    static List<Revision> all(TransactionContext tx, String house) {
        return tx.run(
                        "MATCH (:Ledger {house: $house})-[:HAS]->(r:Revision)" + COLUMNS + " ORDER BY number",
                        Map.of("house", house))
                .list(Ledger::revision);
    }

    /** {@return the newest revision of each house that is there, by id} */
    static List<Revision> houses(TransactionContext tx) {
        return tx
                .run("MATCH (l:Ledger) WHERE l.deleted = false"
                        + " OPTIONAL MATCH (r:Revision {key: l.house + '/' + toString(l.newest)})" + COLUMNS
                        + ", l.house AS of ORDER BY of")
                .list(r -> r)
                .stream()
                .flatMap(r -> r.get("number").isNull()
                        ? newest(tx, r.get("of").asString()).map(Kept::revision).stream()
                        : Stream.of(revision(r)))
                .toList();
    }

    /**
     * {@return the revision that follows}
     *
     * @param newest what there is of the house
     * @param now the moment; a clock that was set back puts no revision before the one it follows
     */
    static Revision next(
            Optional<Revision> newest,
            String id,
            String name,
            String who,
            String why,
            boolean deleted,
            String digest,
            Instant now) {
        Instant stored =
                newest.map(Revision::stored).filter(last -> last.isAfter(now)).orElse(now);
        return new Revision(id, name, newest.map(Revision::number).orElse(0L) + 1, stored, who, why, deleted, digest);
    }

    /** Adds a revision, the newest from now on. */
    static void append(TransactionContext tx, Revision r, Packed record, String token) {
        tx.run(
                        "MATCH (l:Ledger {house: $r.house}) CREATE (l)-[:HAS]->(r:Revision) SET r = $r,"
                                + " l.newest = $r.number, l.deleted = $r.deleted",
                        Map.of("r", row(r, record, token)))
                .consume();
    }

    /** Adds a whole past to a house that has none; {@return its newest revision, as it is kept}. */
    static Revision appendPast(TransactionContext tx, Past past, Optional<Kept> there, RecordText text, String token) {
        if (there.isPresent()) {
            throw new Refusal(Problem.error(
                    ProblemKind.CONFLICT,
                    Where.field(past.house()),
                    "The house " + past.house() + " is in the store, or was and was deleted.",
                    "Restore into a store that has never held it."));
        }
        Revision last = past.newest().revision();
        for (Past.Step step : past.steps()) {
            String record = step.house() == null ? "" : text.write(step.house());
            last = step.revision().withDigest(Packed.digest(record));
            append(tx, last, Packed.of(record), token);
        }
        return last;
    }

    private static final String APPEND_NEW = "UNWIND $rows AS row"
            + " CREATE (l:Ledger {house: row.house, newest: row.number, deleted: row.deleted, lock: true})"
            + "-[:HAS]->(r:Revision) SET r = row";

    /** Adds first revisions of houses that have no ledger yet. */
    static void appendNew(TransactionContext tx, List<Kept> kept) {
        tx.run(APPEND_NEW, Map.of("rows", rows(kept))).consume();
    }

    /** The same, within the process of the embedded database. */
    static void appendNew(Transaction tx, List<Kept> kept) {
        tx.execute(APPEND_NEW, Map.of("rows", rows(kept))).close();
    }

    private static List<Map<String, Object>> rows(List<Kept> kept) {
        return kept.stream().map(k -> row(k.revision(), k.record(), k.token())).toList();
    }

    private static Map<String, Object> row(Revision r, Packed record, String token) {
        return Map.ofEntries(
                entry("key", r.house() + "/" + r.number()),
                entry("house", r.house()),
                entry("number", r.number()),
                entry("name", r.name()),
                entry("stored", r.stored().atZone(ZoneOffset.UTC)),
                entry("who", r.who()),
                entry("why", r.why()),
                entry("deleted", r.deleted()),
                entry("digest", r.digest()),
                entry("token", token),
                entry("record", record.bytes()));
    }

    private static Optional<Kept> first(TransactionContext tx, String cypher, Map<String, Object> parameters) {
        return tx.run(cypher, parameters).list(Ledger::kept).stream().findFirst();
    }

    private static Kept kept(Record row) {
        return new Kept(
                revision(row),
                Packed.kept(row.get("record").asByteArray()),
                row.get("token").asString());
    }

    private static Revision revision(Record row) {
        return new Revision(
                row.get("house").asString(),
                row.get("name").asString(),
                row.get("number").asLong(),
                row.get("stored").asZonedDateTime().toInstant(),
                row.get("who").asString(),
                row.get("why").asString(),
                row.get("deleted").asBoolean(),
                row.get("digest").asString());
    }

    /** {@return the houses, or the one that is named, whose graph is not of this program or not of the newest revision} */
    static List<String> stale(TransactionContext tx, String house) {
        return house.isEmpty()
                ? tx.run(
                                "MATCH (h:House) WHERE h.derivation <> $stamp RETURN h.key AS id",
                                Map.of("stamp", Projection.STAMP))
                        .list(r -> r.get("id").asString())
                : tx.run(
                                "MATCH (l:Ledger {house: $house, deleted: false}) OPTIONAL MATCH (h:House {key: $house})"
                                        + " WITH l, h WHERE h IS NULL OR h.derivation <> $stamp OR h.revision <> l.newest"
                                        + " RETURN l.house AS id",
                                Map.of("house", house, "stamp", Projection.STAMP))
                        .list(r -> r.get("id").asString());
    }

    /** {@return the newest revision of a house that is there; otherwise refuses} */
    static Kept standing(String id, Optional<Kept> newest) {
        return newest.filter(k -> !k.revision().deleted())
                .orElseThrow(() -> new Refusal(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field(id),
                        "There is no house " + id + ".",
                        "Look at the list of houses.")));
    }
}
