package org.splicebook.graph;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Driver;
import org.neo4j.driver.TransactionContext;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.people.PeopleStore;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.DraftState;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Progress;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.RecordText;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.VerifyReport;
import org.splicebook.wiring.Wiring;

/** Keeps houses in Neo4j over the official driver: the same code for the embedded database and for a server. */
public final class Neo4jHouseStore implements HouseStore {
    private final Driver driver;
    private final Door door;
    private final Transactions transactions;
    private final RecordText text;
    private final Clock clock;
    private final Projection projection;
    private final Records records;
    private final Redrawing redrawing;
    private final DraftShelf drafts;
    private final Verifier verifier;
    private final Refreshing refreshing;
    private final @Nullable EmbeddedNeo4j embedded;
    private final BulkWriter bulk;
    private final Questions questions;
    private final Recall recall;
    private final PropertyLog properties;
    private final Checkup checkup;

    private final Remembered<Optional<StoredHouse>> newest;
    private final Remembered<List<Sighting>> sightings;

    /**
     * A store over a driver, which it closes.
     *
     * @param driver the driver
     * @param text turns records into the text that is kept
     * @param clock tells when a revision is stored
     * @param derivation what the wiring does
     * @param queries folders of questions beside those of the program
     * @param embedded the database in this process that the driver speaks to, which is closed after it; null for a server
     */
    public Neo4jHouseStore(
            Driver driver,
            RecordText text,
            Clock clock,
            Function<House, Wiring> derivation,
            List<Path> queries,
            @Nullable EmbeddedNeo4j embedded) {
        this.driver = driver;
        this.recall = new Recall(embedded != null);
        this.door = embedded == null
                ? new DriverDoor(driver)
                : new InProcessDoor(embedded.database(), embedded.condition(), recall);
        this.transactions = new Transactions(driver, door);
        this.text = text;
        this.clock = clock;
        this.projection = new Projection(derivation);
        this.records = new Records(text);
        this.redrawing = new Redrawing(projection);
        this.drafts = new DraftShelf(text);
        this.verifier = new Verifier(transactions, text, projection);
        this.refreshing = new Refreshing(transactions, verifier);
        this.embedded = embedded;
        this.bulk = embedded == null
                ? BulkWriter.over(transactions)
                : new InProcessWriter(embedded.database(), embedded.condition(), recall);
        this.newest = new Remembered<>(recall);
        this.sightings = new Remembered<>(recall);
        this.properties = new PropertyLog(transactions, text, clock);
        this.checkup = new Checkup(transactions, embedded == null ? null : embedded.condition());
        Schema.ensure(transactions, embedded != null && embedded.isBeingMade());
        this.questions = Questions.load(driver, door, recall, queries);
    }

    @Override
    public List<Revision> listHouses() {
        return transactions.read(Ledger::houses);
    }

    @Override
    public Optional<StoredHouse> findHouse(String id) {
        return newest.of(
                id, () -> transactions.read(tx -> Ledger.newest(tx, id)).flatMap(records::stored));
    }

    @Override
    public Optional<StoredHouse> findRevision(String id, long revision) {
        return transactions.read(tx -> Ledger.find(tx, id, revision)).flatMap(records::stored);
    }

    @Override
    public Optional<StoredHouse> findAsOf(String id, Instant moment) {
        return transactions.read(tx -> Ledger.asOf(tx, id, moment)).flatMap(records::stored);
    }

    @Override
    public List<Revision> revisions(String id) {
        return transactions.read(tx -> Ledger.all(tx, id));
    }

    @Override
    public Result<Revision> put(House house, long expected, String who, String why) {
        return put(house, expected, who, why, (tx, token) -> {});
    }

    /** Stores a house, and whatever else belongs to it, in one transaction. */
    private Result<Revision> put(
            House house, long expected, String who, String why, BiConsumer<TransactionContext, String> beside) {
        // What was is worked out beside what is to be: both take equally long.
        Supplier<Optional<Redrawing.Drawn>> before = Begun.begin(() -> drawn(house.id(), expected));
        String record = text.write(house);
        Packed packed = Packed.of(record);
        String digest = Packed.digest(record);
        Projection.Derived derived = projection.derive(house);
        Optional<Redrawing.Drawn> drawn = before.get();
        String token = Secret.random();
        return refusable(tx -> {
            Optional<Ledger.Kept> newest = Ledger.lock(tx, house.id());
            if (newest.isPresent() && newest.get().token().equals(token)) {
                return newest.get().revision(); // Stored at the first try, whose answer was lost on the way.
            }
            Refusal.unlessNewest(house.id(), expected, newest);
            SightingLog.check(tx, house.id(), house.sightings());
            Revision next = next(newest, house.id(), house.said(), who, why, false, digest);
            Ledger.append(tx, next, packed, token);
            redrawing.draw(tx, drawn, next, projection.of(derived, next));
            beside.accept(tx, token);
            return next;
        });
    }

    /** {@return what is drawn of the revision that a change was made from} */
    private Optional<Redrawing.Drawn> drawn(String house, long expected) {
        return expected == 0
                ? Optional.empty()
                : findHouse(house)
                        .filter(s -> s.revision().number() == expected)
                        .map(redrawing::drawn);
    }

    private Revision next(
            Optional<Ledger.Kept> newest,
            String id,
            String name,
            String who,
            String why,
            boolean deleted,
            String digest) {
        return Ledger.next(newest.map(Ledger.Kept::revision), id, name, who, why, deleted, digest, now());
    }

    @Override
    public List<KeptDraft> drafts(String house) {
        return transactions.read(tx -> drafts.all(tx, house));
    }

    @Override
    public Optional<KeptDraft> findDraft(String house, String name) {
        return transactions.read(tx -> drafts.find(tx, house, name));
    }

    @Override
    public Result<KeptDraft> putDraft(DraftState state, long expected, String who) {
        String token = Secret.random();
        return refusable(tx -> {
            String house = state.draft().house();
            Ledger.Kept unused = Ledger.standing(house, Ledger.lock(tx, house));
            return drafts.put(tx, state, expected, who, now(), token);
        });
    }

    @Override
    public Result<Revision> enterDraft(House house, DraftState state, long expected, String who, String why) {
        return put(house, state.base() - 1, who, why, (tx, token) -> {
            KeptDraft unused = drafts.put(tx, state, expected, who, now(), token);
        });
    }

    @Override
    public void prepare(String question, String house, Map<String, String> parameters) {
        questions.prepare(question, house, parameters);
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        return questions.askDraft(question, drafted, parameters, () -> projection.ofDraft(drafted));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }

    @Override
    public Result<List<Revision>> putAll(Collection<House> houses, String who, String why) {
        BulkLoad load = new BulkLoad(transactions, bulk, projection);
        return load.load(houses, (house, token) -> {
            String record = text.write(house);
            Revision first = next(Optional.empty(), house.id(), house.said(), who, why, false, Packed.digest(record));
            return new Ledger.Kept(first, Packed.of(record), token);
        });
    }

    @Override
    public Result<Revision> delete(String id, long expected, String who, String why) {
        String token = Secret.random();
        return refusable(tx -> {
            Optional<Ledger.Kept> newest = Ledger.lock(tx, id);
            if (newest.isPresent() && newest.get().token().equals(token)) {
                return newest.get().revision();
            }
            Revision last = Ledger.standing(id, newest).revision();
            Refusal.unlessNewest(id, expected, newest);
            Revision next = next(newest, id, last.name(), who, why, true, Packed.digest(""));
            Ledger.append(tx, next, Packed.of(""), token);
            GraphWriter.remove(tx, id);
            return next;
        });
    }

    @Override
    public Result<Integer> appendSightings(String id, List<Sighting> sightings) {
        return refusable(tx -> {
            Ledger.Kept newest = Ledger.standing(id, Ledger.lock(tx, id));
            return SightingLog.append(tx, id, records.read(newest).sightings(), sightings);
        });
    }

    @Override
    public List<Sighting> sightings(String id) {
        return sightings.of(id, () -> {
            List<Sighting> recorded =
                    findHouse(id).map(s -> s.house().sightings()).orElse(List.of());
            return List.copyOf(SightingLog.together(recorded, transactions.read(tx -> SightingLog.all(tx, id))));
        });
    }

    @Override
    public Result<Revision> restore(Past past) {
        @Nullable House newest = past.newest().house();
        Projection.@Nullable Derived derived = newest == null ? null : projection.derive(newest);
        String token = Secret.random();
        return refusable(tx -> {
            Optional<Ledger.Kept> there = Ledger.lock(tx, past.house());
            if (there.isPresent() && there.get().token().equals(token)) {
                return there.get().revision();
            }
            Revision last = Ledger.appendPast(tx, past, there, text, token);
            if (newest != null && derived != null) {
                GraphWriter.replace(tx, past.house(), projection.of(derived, last));
            }
            int unused = SightingLog.append(
                    tx, past.house(), newest == null ? List.of() : newest.sightings(), past.appended());
            return last;
        });
    }

    @Override
    public PropertyStore properties() {
        return properties;
    }

    @Override
    public List<Question> questions() {
        return questions.list();
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        if (house.isEmpty()) {
            refreshing.all();
        }
        try {
            return questions.ask(question, house, parameters);
        } catch (ProblemException e) {
            if (e.problems().stream().noneMatch(p -> p.kind() == ProblemKind.STALE)) {
                throw e;
            }
            refreshing.house(house);
            return questions.ask(question, house, parameters);
        }
    }

    /** {@return what is wrong with files of questions that were left out} */
    public List<Problem> refusedQuestions() {
        return questions.refused();
    }

    @Override
    public VerifyReport verify(boolean rebuild, Progress progress) {
        return verifier.verify(rebuild, progress);
    }

    @Override
    public Health health() {
        return checkup.health();
    }

    @Override
    public void close() {
        try (door) {
            driver.close();
        } finally {
            if (embedded != null) {
                embedded.close();
            }
        }
    }

    @Override
    public Result<Listing> look(String cypher, int most) {
        return Look.run(driver, cypher, most);
    }

    @Override
    public Papers papers() {
        return new PaperShelf(transactions, clock);
    }

    /** {@return who may do what, kept in the same database} */
    public PeopleStore people() {
        return new Neo4jPeople(transactions);
    }

    /** Forgets what is remembered, as a start does. */
    void forget() {
        recall.forget();
        redrawing.forget();
    }

    /** {@return the driver, for what else this package asks of the database} */
    Driver driver() {
        return driver;
    }

    /** {@return the database in this process, which there has to be} */
    EmbeddedNeo4j embedded() {
        return Objects.requireNonNull(embedded);
    }

    /** {@return the way in that this store takes} */
    Door door() {
        return door;
    }

    private <T> Result<T> refusable(Function<TransactionContext, T> work) {
        try {
            return Result.ok(transactions.write(work));
        } catch (Refusal e) {
            return Result.failed(e.problem());
        }
    }
}
