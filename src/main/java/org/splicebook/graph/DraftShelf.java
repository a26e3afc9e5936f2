package org.splicebook.graph;

import static java.util.Map.entry;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.store.DraftState;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.RecordText;

/** The drafts kept beside each house, as text. Every method works within a transaction of its caller. */
final class DraftShelf {
    private static final String OF_HOUSE = "MATCH (:Ledger {house: $house, deleted: false})-[:PLANS]->(d:Draft)";
    private static final String COLUMNS =
            " RETURN d.text AS text, d.digest AS digest, d.name AS name, d.house AS house, d.base AS base, d.done AS done,"
                    + " d.withdrawn AS withdrawn, d.version AS version, d.stored AS stored, d.who AS who, d.token AS token";

    private final RecordText text;

    DraftShelf(RecordText text) {
        this.text = text;
    }

    /** A draft and the token of the write that stored it. */
    record Kept(KeptDraft draft, String token) {}

    List<KeptDraft> all(TransactionContext tx, String house) {
        return tx.run(OF_HOUSE + COLUMNS + " ORDER BY name", Map.of("house", house)).list(this::kept).stream()
                .map(Kept::draft)
                .toList();
    }

    Optional<KeptDraft> find(TransactionContext tx, String house, String name) {
        return kept(tx, house, name).map(Kept::draft);
    }

    private Optional<Kept> kept(TransactionContext tx, String house, String name) {
        return tx
                .run(OF_HOUSE + " WHERE d.key = $house + '/' + $name" + COLUMNS, Map.of("house", house, "name", name))
                .list(this::kept)
                .stream()
                .findFirst();
    }

    /**
     * Keeps a draft of a house that is locked.
     *
     * @param token of this write: where it is the newest one's already, its first try succeeded and only the answer was lost
     * @throws Refusal when it was made from another version
     */
    KeptDraft put(TransactionContext tx, DraftState state, long expected, String who, Instant now, String token) {
        String house = state.draft().house();
        String name = state.draft().name();
        Optional<Kept> before = kept(tx, house, name);
        if (before.isPresent() && before.get().token().equals(token)) {
            return before.get().draft();
        }
        long newest = before.map(k -> k.draft().version()).orElse(0L);
        if (newest != expected) {
            throw new Refusal(Problem.error(
                    ProblemKind.STALE,
                    Where.field("draft"),
                    newest == 0
                            ? "The house " + house + " has no draft " + name + "."
                            : expected == 0
                                    ? "The house " + house + " has a draft " + name + " already, in version " + newest
                                            + "."
                                    : "This was made from version " + expected + " of the draft " + name
                                            + ", and its newest is " + newest + ".",
                    "Take the newest version, make the change in it, and store that."));
        }
        KeptDraft next = new KeptDraft(state, newest + 1, now, who);
        String written = text.write(state.draft());
        tx.run(
                        "MATCH (l:Ledger {house: $d.house}) MERGE (d:Draft {key: $d.key}) SET d = $d MERGE (l)-[:PLANS]->(d)",
                        Map.of("d", row(next, written, token)))
                .consume();
        return next;
    }

    private static Map<String, Object> row(KeptDraft d, String written, String token) {
        return Map.ofEntries(
                entry("key", d.draft().house() + "/" + d.name()),
                entry("house", d.draft().house()),
                entry("name", d.name()),
                entry("status", d.state().status().word()),
                entry("base", d.state().base()),
                entry("done", (long) d.state().done()),
                entry("withdrawn", d.state().isWithdrawn()),
                entry("version", d.version()),
                entry("stored", d.stored().atZone(ZoneOffset.UTC)),
                entry("who", d.who()),
                entry("text", written),
                entry("digest", Packed.digest(written)),
                entry("token", token));
    }

    /** {@return the names of the drafts whose text is not what was stored} */
    static List<String> damaged(TransactionContext tx, String house) {
        return tx
                .run(
                        "MATCH (:Ledger {house: $house})-[:PLANS]->(d:Draft) RETURN d.name AS name, d.text AS text, d.digest AS digest"
                                + " ORDER BY name",
                        Map.of("house", house))
                .stream()
                .filter(r -> !isIntact(r))
                .map(r -> r.get("name").asString())
                .toList();
    }

    private static boolean isIntact(Record row) {
        return Packed.digest(row.get("text").asString())
                .equals(row.get("digest").asString());
    }

    private Kept kept(Record row) {
        String name = row.get("name").asString();
        if (!isIntact(row)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.INTERNAL,
                    Where.field(name),
                    "The draft " + name + " of " + row.get("house").asString() + " is not what was stored.",
                    "Restore the store from its copy, or make the draft anew under another name."));
        }
        Draft draft = text.readDraft(row.get("text").asString());
        DraftState state = new DraftState(
                draft.with(row.get("base").asLong(), draft.moves()),
                row.get("done").asInt(),
                row.get("withdrawn").asBoolean());
        return new Kept(
                new KeptDraft(
                        state,
                        row.get("version").asLong(),
                        row.get("stored").asZonedDateTime().toInstant(),
                        row.get("who").asString()),
                row.get("token").asString());
    }
}
