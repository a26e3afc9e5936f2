package org.splicebook.graph;

import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Parameters;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.wiring.Wiring;

/** One question, asked once: in one transaction that only reads and that has a time limit. */
final class Asking {
    /** How long a question may take. */
    static final Duration LIMIT = Duration.ofSeconds(2);

    /** A column of relationships that hold stored ways: it becomes the why of its row. */
    static final String WAYS = "ways";

    /** How long it may take once its plans are made, where it was stopped before: a busy machine is slow. */
    private static final Duration PATIENT_LIMIT = Duration.ofSeconds(10);

    private static final Duration PLANNING = Duration.ofSeconds(20);
    private static final String HOUSE = """
            MATCH (h:House {key: $house})
            RETURN h.title AS title, h.revision AS revision, h.stored AS stored, h.derivation AS derivation,
                   coalesce(h.draft, false) AS draft,
                   EXISTS { MATCH (:Revision {key: h.key + '/' + toString(h.revision)}) } AS indexed,
                   COLLECT {
                     MATCH (o:OpenRegion)
                     WHERE o.key STARTS WITH $house + '/'
                     RETURN {
                       id: o.name,
                       boxes: COLLECT { MATCH (o)-[:OPEN_AT]->(b) RETURN b.name ORDER BY b.name },
                       breakers: COLLECT { MATCH (o)-[:MAY_JOIN]->(b:Breaker) RETURN b.name ORDER BY b.name },
                       cables: COLLECT { MATCH (o)-[:MAY_JOIN]->(c:Cable) RETURN c.name ORDER BY c.name },
                       points: COLLECT { MATCH (o)-[:MAY_JOIN]->(p:LoadPoint) RETURN p.name ORDER BY p.name }
                     }
                   } AS open,
                   COLLECT {
                     MATCH (w:Wire)
                     WHERE w.key STARTS WITH $house + '/' AND NOT w.name ENDS WITH '.' + w.colour
                     RETURN [w.name, w.colour]
                   } AS otherColours
            """;

    private static final int TRIES = 5;

    private final Door door;
    private final Recall recall;
    private final Remembered<KnownHouse> houses;
    private final QuestionFile file;
    private final Question question;
    private final String house;
    private final Map<String, String> given;

    Asking(
            Door door,
            Recall recall,
            Remembered<KnownHouse> houses,
            QuestionFile file,
            String house,
            Map<String, String> given) {
        this.door = door;
        this.recall = recall;
        this.houses = houses;
        this.file = file;
        this.question = file.question();
        this.house = house;
        this.given = given;
    }

    Result<Reply> ask() {
        List<Problem> problems = Parameters.wrong(question, file.choices(), house, given);
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        try {
            Asked asked = askPatiently();
            List<Problem> unknown = asked.isEmpty() && !question.acrossHouses()
                    ? door.read(
                            PLANNING,
                            tx -> Names.unknown(
                                    tx, question, house, asked.reply().heading().parameters()))
                    : List.of();
            return unknown.isEmpty() ? Result.ok(asked.reply()) : new Result.Failed<>(unknown);
        } catch (ClientException e) {
            return Result.failed(said(e));
        } catch (Neo4jException e) {
            throw Transactions.problem(e);
        }
    }

    /**
     * The same, of a house as it would be after a draft.
     *
     * @param projected makes its graph, which is there within this asking's transaction only
     */
    Result<Reply> askDraft(Supplier<Projection.OfDraft> projected) {
        List<Problem> problems = Parameters.wrong(question, file.choices(), house, given);
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        Projection.OfDraft draft = projected.get();
        try {
            return Transactions.trial(door, tx -> {
                GraphWriter.create(tx, List.of(draft.rows()));
                KnownHouse known = KnownHouse.of(house(tx, draft.key()));
                Asked asked = ask(tx, known, draft.key(), () -> true).orElseThrow();
                return asked.isEmpty() ? unlessUnknown(tx, draft.key(), asked) : Result.ok(asked.reply());
            });
        } catch (ClientException e) {
            return Result.failed(said(e));
        } catch (Neo4jException e) {
            throw Transactions.problem(e);
        }
    }

    private Result<Reply> unlessUnknown(TransactionContext tx, String key, Asked asked) {
        List<Problem> unknown =
                Names.unknown(tx, question, key, asked.reply().heading().parameters());
        return unknown.isEmpty()
                ? Result.ok(asked.reply())
                : new Result.Failed<>(unknown.stream()
                        .map(p -> Problem.error(p.kind(), p.where(), p.message().replace(key, house), p.cure()))
                        .toList());
    }

    /** A reply, and whether nothing was found at all. */
    private record Asked(Reply reply, boolean isEmpty) {}

    private Asked askPatiently() {
        for (int i = 1; i <= TRIES; i++) {
            boolean hold = i == TRIES;
            Optional<Asked> asked = tried(hold);
            if (asked.isPresent()) {
                return asked.get();
            }
        }
        throw new ProblemException(Problem.error(
                ProblemKind.STALE,
                Where.field("house"),
                "The house " + house + " was changed each time while it was asked about.",
                "Ask again."));
    }

    /** Asks; {@return nothing where what was asked about was changed meanwhile}. On hold, nobody changes it until it is answered. */
    private Optional<Asked> tried(boolean hold) {
        try {
            return door.read(hold ? PATIENT_LIMIT : LIMIT, tx -> ask(tx, hold));
        } catch (ClientException e) {
            if (isGone(e)) {
                return Optional.empty();
            }
            if (!isTooSlow(e)) {
                throw e;
            }
        }
        // On a busy machine it may have been the planning that took so long: have that done, and ask once more.
        // A question across houses is one statement, whose plan is made by now.
        if (!question.acrossHouses()) {
            int unused = door.read(PLANNING, this::rehearse);
        }
        return door.read(PATIENT_LIMIT, tx -> ask(tx, hold));
    }

    /** Has the plans made; {@return whether they were, which they are not for what cannot be asked} */
    boolean prepare() {
        if (!Parameters.wrong(question, file.choices(), house, given).isEmpty()) {
            return false;
        }
        int unused = door.read(PLANNING, this::rehearse);
        return true;
    }

    /** Asks of no house, so that the plans are made and kept. They are kept by how long the parameters are, among other things. */
    private int rehearse(TransactionContext tx) {
        Map<String, Object> bound = new LinkedHashMap<>(Parameters.filled(question, given));
        String none = "/".repeat(house.length());
        bound.put("house", none);
        tx.run(HOUSE, Map.of("house", none)).consume();
        Ways.rehearse(tx, none);
        return tx.run(file.cypher(), bound).list().size();
    }

    /** {@return the reply, unless the house was changed meanwhile} */
    private Optional<Asked> ask(TransactionContext tx, boolean hold) {
        if (question.acrossHouses()) {
            return ask(tx, null, house, () -> true);
        }
        if (hold) {
            Ledger.hold(tx, house);
        }
        long mark = recall.mark(house);
        KnownHouse known = known(tx);
        boolean isHeld = hold && recall.canTell();
        if (!known.house().get("indexed").asBoolean(false)) {
            return Optional.empty();
        }
        Optional<Asked> asked = ask(tx, known, house, () -> isHeld || recall.isUnchanged(house, mark));
        if (asked.isPresent()) {
            houses.keep(house, known, mark);
        }
        return asked;
    }

    /**
     * Asks in a transaction.
     *
     * @param key what stands for the house in the graph
     * @param unchanged whether surely nothing was written since the house was read
     */
    private Optional<Asked> ask(
            TransactionContext tx, @Nullable KnownHouse known, String key, BooleanSupplier unchanged) {
        Map<String, String> all = Parameters.filled(question, given);
        Record record = known == null ? null : known.house();
        Heading heading = record == null ? acrossHouses(all) : oneHouse(record, all);
        Map<String, Object> bound = new LinkedHashMap<>(all);
        bound.put("house", key);
        List<Record> records = tx.run(file.cypher(), bound).list();
        Optional<Ways> ways =
                known == null ? Optional.of(Ways.none()) : Ways.read(tx, key, known, all, records, unchanged);
        // Over Bolt, where others write too, no more can be told than that the ways are of the house's revision.
        if (ways.isEmpty() || (recall.canTell() && !unchanged.getAsBoolean())) {
            return Optional.empty();
        }
        Reply reply;
        if (question.kind() == Question.Kind.LISTING) {
            List<List<Object>> rows = records.stream()
                    .map(r -> r.values().stream().map(Cells::plain).toList())
                    .toList();
            reply = new Listing(heading, question.columns(), rows);
        } else {
            Openness open = record == null ? new Openness(List.of()) : new Openness(regions(record.get("open")));
            reply = answer(heading, records, ways.get(), open);
        }
        return Optional.of(new Asked(reply, records.isEmpty()));
    }

    private KnownHouse known(TransactionContext tx) {
        KnownHouse remembered = houses.find(house);
        return remembered == null ? KnownHouse.of(house(tx, house)) : remembered;
    }

    private Answer answer(Heading heading, List<Record> records, Ways ways, Openness open) {
        List<Row> rows = new ArrayList<>();
        for (Record r : records) {
            Map<String, Object> columns = new LinkedHashMap<>();
            for (String c : question.columns()
                    .subList(
                            QuestionFile.ANSWER_COLUMNS.size(),
                            question.columns().size())) {
                if (!c.equals(WAYS)) {
                    columns.put(c, Cells.plain(r.get(c)));
                }
            }
            String subject = String.valueOf(Cells.plain(r.get("subject")));
            List<Reason> why = ways.of(r);
            rows.add(new Row(subject, status(r.get("status")), basis(r.get("basis")), columns, Ways.say(why), why));
        }
        rows.sort(Comparator.comparing(Row::status));
        return new Answer(
                heading,
                rows,
                Openness.assumed(rows),
                open.notProven(rows, heading.parameters().values()),
                open.wouldSettle(rows, heading.parameters().values()),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static List<Wiring.OpenRegion> regions(Value open) {
        return open.asList(o -> new Wiring.OpenRegion(
                o.get("id").asString(),
                o.get("boxes").asList(Value::asString),
                o.get("breakers").asList(Value::asString),
                o.get("cables").asList(Value::asString),
                o.get("points").asList(Value::asString)));
    }

    /** A sureness counts as the part of the answer it belongs to; what is not known is never more than possible. */
    private static Row.Status status(Value said) {
        return switch (said.isNull() ? "" : said.asString()) {
            case "shown", "must" -> Row.Status.SHOWN;
            case "excluded" -> Row.Status.EXCLUDED;
            default -> Row.Status.POSSIBLE;
        };
    }

    /** What is not said is assumed. */
    private static Basis basis(Value said) {
        String word = said.isNull() ? "" : said.asString();
        for (Basis b : Basis.values()) {
            if (b.word().equals(word)) {
                return b;
            }
        }
        return Basis.ASSUMED;
    }

    private Heading acrossHouses(Map<String, String> all) {
        return new Heading(question.id(), question.said(all), "", "", 0, Instant.now(), all, false);
    }

    private Record house(TransactionContext tx, String key) {
        List<Record> found = tx.run(HOUSE, Map.of("house", key)).list();
        if (found.isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("house"),
                    "There is no house " + house + ".",
                    Nearest.cure(house, Names.houses(tx))));
        }
        Record h = found.get(0);
        if (h.get("derivation").asLong(0) != Projection.STAMP) {
            throw new ProblemException(Problem.error(
                    ProblemKind.STALE,
                    Where.field("house"),
                    "The graph of " + house + " was made by another version of the program.",
                    "Verify the store and have it rebuilt; until then it is not answered from."));
        }
        return h;
    }

    private Heading oneHouse(Record h, Map<String, String> all) {
        Value stored = h.get("stored");
        Instant when = stored.asObject() instanceof ZonedDateTime z ? z.toInstant() : Instant.EPOCH;
        return new Heading(
                question.id(),
                question.said(all),
                house,
                h.get("title").asString(house),
                h.get("revision").asLong(0),
                when,
                all,
                h.get("draft").asBoolean(false));
    }

    /** What an index still told of was taken away meanwhile. */
    private static boolean isGone(ClientException e) {
        return e.code() != null && e.code().contains("EntityNotFound");
    }

    static boolean isTooSlow(ClientException e) {
        return e.code() != null && e.code().contains("TransactionTimedOut");
    }

    private Problem said(ClientException e) {
        String code = e.code() == null ? "" : e.code();
        Where where = new Where(question.origin(), 0, 0, "");
        if (isTooSlow(e) || code.contains("MemoryPool") || code.contains("OutOfMemory")) {
            return Problem.error(
                    ProblemKind.TOO_SLOW,
                    where,
                    "The question " + question.id() + " took longer than "
                            + String.format(Locale.ROOT, "%d", PATIENT_LIMIT.toSeconds())
                            + " s or too much memory, and was stopped.",
                    "Begin it at one named thing, and ask for less at once.");
        }
        if (code.contains("AccessMode") || code.contains("Security")) {
            return Problem.error(
                    ProblemKind.REFUSED, where, "A question only reads.", "Change houses by storing them.");
        }
        return Problem.error(ProblemKind.BAD_VALUE, where, "The question failed: " + e.getMessage(), "");
    }
}
