package org.splicebook.people;

import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.DraftState;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.ForwardingStore;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Progress;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.VerifyReport;

/**
 * The store as somebody may use it: a house that is not theirs to read is not there, what is not theirs to do is refused, a change carries
 * their name, and each change is logged. It stands behind the table of routes: what one lets through by mistake, the other stops.
 */
public final class GuardedStore extends ForwardingStore {
    private final PeopleStore people;
    private final Clock clock;
    private final Supplier<Visitor> visitor;
    private final Estates estates;

    /** Puts itself before a store; visitor tells who is at work. */
    public GuardedStore(
            HouseStore behind, PeopleStore people, Clock clock, Supplier<Visitor> visitor, Estates estates) {
        super(behind);
        this.people = people;
        this.clock = clock;
        this.visitor = visitor;
        this.estates = estates;
    }

    @Override
    public List<Revision> listHouses() {
        Visitor who = visitor.get();
        return behind.listHouses().stream()
                .filter(r -> who.may(Role.READER, r.house(), estates))
                .toList();
    }

    @Override
    public Optional<StoredHouse> findHouse(String id) {
        return reads(id) ? behind.findHouse(id) : Optional.empty();
    }

    @Override
    public Optional<StoredHouse> findRevision(String id, long revision) {
        return reads(id) ? behind.findRevision(id, revision) : Optional.empty();
    }

    @Override
    public Optional<StoredHouse> findAsOf(String id, Instant moment) {
        return reads(id) ? behind.findAsOf(id, moment) : Optional.empty();
    }

    @Override
    public List<Revision> revisions(String id) {
        return reads(id) ? behind.revisions(id) : List.of();
    }

    @Override
    public List<Sighting> sightings(String id) {
        return reads(id) ? behind.sightings(id) : List.of();
    }

    @Override
    public List<Question> questions() {
        return visitor.get().isKnown() ? behind.questions() : List.of();
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        if (house.isEmpty()) {
            requireEverywhere(Role.READER);
        } else if (!reads(house)) {
            return Result.failed(notThere(house));
        }
        return behind.ask(question, house, parameters);
    }

    @Override
    public Result<Revision> put(House house, long expected, String who, String why) {
        require(Role.RECORDER, house.id());
        return logged(
                behind.put(house, expected, name(who), why), house.id(), "house stored", r -> "revision " + r.number());
    }

    @Override
    public Result<List<Revision>> putAll(Collection<House> houses, String who, String why) {
        houses.forEach(h -> require(Role.RECORDER, h.id()));
        return logged(
                behind.putAll(houses, name(who), why),
                houses.size() == 1 ? houses.iterator().next().id() : "",
                "houses stored",
                made -> made.size() + " new");
    }

    @Override
    public Result<Revision> delete(String id, long expected, String who, String why) {
        require(Role.MANAGER, id);
        return logged(behind.delete(id, expected, name(who), why), id, "house deleted", r -> "revision " + r.number());
    }

    @Override
    public Result<Integer> appendSightings(String id, List<Sighting> sightings) {
        require(Role.RECORDER, id);
        return logged(behind.appendSightings(id, sightings), id, "sightings added", n -> n + " new");
    }

    @Override
    public Result<Revision> restore(Past past) {
        requireEverywhere(Role.MANAGER);
        return logged(behind.restore(past), past.house(), "house restored", r -> "revision " + r.number());
    }

    @Override
    public List<KeptDraft> drafts(String house) {
        return reads(house) ? behind.drafts(house) : List.of();
    }

    @Override
    public Optional<KeptDraft> findDraft(String house, String name) {
        return reads(house) ? behind.findDraft(house, name) : Optional.empty();
    }

    @Override
    public Result<KeptDraft> putDraft(DraftState state, long expected, String who) {
        String house = state.draft().house();
        require(Role.RECORDER, house);
        return logged(
                behind.putDraft(state, expected, name(who)),
                house,
                "draft kept",
                d -> d.name() + ", version " + d.version() + ", "
                        + d.state().status().word());
    }

    @Override
    public Result<Revision> enterDraft(House house, DraftState state, long expected, String who, String why) {
        require(Role.RECORDER, house.id());
        require(Role.RECORDER, state.draft().house());
        return logged(
                behind.enterDraft(house, state, expected, name(who), why),
                house.id(),
                "draft entered",
                r -> state.draft().name() + ", revision " + r.number());
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        String house = drafted.base().house();
        return reads(house) ? behind.askDraft(question, drafted, parameters) : Result.failed(notThere(house));
    }

    @Override
    public PropertyStore properties() {
        return new GuardedProperties(behind.properties(), people, clock, visitor);
    }

    @Override
    public Papers papers() {
        return new GuardedPapers(behind.papers(), people, clock, visitor, estates);
    }

    @Override
    public VerifyReport verify(boolean rebuild, Progress progress) {
        requireEverywhere(Role.MANAGER);
        return behind.verify(rebuild, progress);
    }

    @Override
    public Result<Listing> look(String cypher, int most) {
        if (!visitor.get().isOwner()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "Queries of one's own are for the owner of the store.",
                    "Ask one of the questions."));
        }
        return logged(
                behind.look(cypher, most), "", "looked by query", l -> l.rows().size() + " rows");
    }

    private boolean reads(String house) {
        return visitor.get().may(Role.READER, house, estates);
    }

    private void require(Role least, String house) {
        Visitor who = visitor.get();
        if (!who.may(least, house, estates)) {
            throw new ProblemException(reads(house) ? refused(least) : notThere(house));
        }
    }

    private void requireEverywhere(Role least) {
        if (!visitor.get().mayEverywhere(least)) {
            throw new ProblemException(refused(least));
        }
    }

    private static Problem refused(Role least) {
        return Problem.error(
                ProblemKind.REFUSED, Where.NOWHERE, "This is for a " + least.word() + ".", "Ask a manager for it.");
    }

    private static Problem notThere(String house) {
        return Problem.error(
                ProblemKind.NOT_FOUND,
                Where.field(house),
                "There is no house " + house + ".",
                "Look at the list of houses.");
    }

    /** The owner says who it was; of others it is known, whatever they say. */
    private String name(String said) {
        Visitor who = visitor.get();
        return who.isOwner() ? said : who.name();
    }

    private <T> Result<T> logged(
            Result<T> done, String house, String what, java.util.function.Function<T, String> said) {
        if (done.isOk()) {
            Visitor who = visitor.get();
            people.append(
                    new AuditEntry(clock.instant(), who.name(), who.way(), what, house, said.apply(done.get()), ""));
        }
        return done;
    }
}
