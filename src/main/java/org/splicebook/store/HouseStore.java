package org.splicebook.store;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/**
 * Keeps houses. Every write is one transaction of record and graph: it happens wholly or not at all. Methods throw {@link
 * org.splicebook.problem.ProblemException} with {@code STORE_AWAY} when the database cannot be reached.
 */
public interface HouseStore extends DraftStore, AutoCloseable {
    /** {@return the newest revision of every house, by id} */
    List<Revision> listHouses();

    /** {@return the newest revision's record, if the house exists} */
    Optional<StoredHouse> findHouse(String id);

    /** {@return one revision's record, if it exists} */
    Optional<StoredHouse> findRevision(String id, long revision);

    /** {@return the record as it stood at that moment, if it stood then} */
    Optional<StoredHouse> findAsOf(String id, Instant moment);

    /** {@return every revision of a house, oldest first; deletions among them} */
    List<Revision> revisions(String id);

    /**
     * Stores a house as the next revision, with its graph.
     *
     * @param house the record
     * @param expected the revision that it was made from: 0 for a house that must not exist yet
     * @param who who changes it
     * @param why why, in a few words
     * @return the new revision, or a {@code STALE} problem that names the newest one
     */
    Result<Revision> put(House house, long expected, String who, String why);

    /** Stores many new houses at once, as first revisions; the fast way in. Refused whole if one of them exists. */
    Result<List<Revision>> putAll(Collection<House> houses, String who, String why);

    /** Takes a house out of the questions; its revisions stay. */
    Result<Revision> delete(String id, long expected, String who, String why);

    /**
     * Adds sightings. One whose id is known with the same content changes nothing; with other content it is a {@code CONFLICT}.
     *
     * @return how many were new
     */
    Result<Integer> appendSightings(String id, List<Sighting> sightings);

    /** {@return the sightings of a house, those of its record and those appended, oldest first} */
    List<Sighting> sightings(String id);

    /**
     * Stores a house with its whole past as it was elsewhere, in one transaction.
     *
     * @return its newest revision, or a {@code CONFLICT} where the house is in the store, or was
     */
    Result<Revision> restore(Past past);

    /** {@return the properties, which join houses} */
    PropertyStore properties();

    /** {@return what is kept beside houses: visits, and what is personal} */
    default Papers papers() {
        return Papers.NONE;
    }

    /** {@return the questions that can be asked, by id} */
    List<Question> questions();

    /**
     * Asks.
     *
     * @param question its id
     * @param house the house; empty for a question across houses
     * @param parameters by name
     */
    Result<Reply> ask(String question, String house, Map<String, String> parameters);

    /**
     * Says that this will soon be asked, so that what the first asking of it needs can be made ready beside other work. It tells nothing,
     * and no answer depends on it.
     */
    default void prepare(String question, String house, Map<String, String> parameters) {}

    /**
     * Compares every house's graph with its record.
     *
     * @param rebuild whether to rebuild what differs
     * @param progress told after each house
     */
    VerifyReport verify(boolean rebuild, Progress progress);

    /**
     * Runs a query of the store's owner in the database's own language, in a transaction that only reads and has a time limit.
     *
     * @param most so many rows at most; more are a {@code TOO_LARGE} problem
     */
    default Result<Listing> look(String cypher, int most) {
        return Result.failed(Problem.error(
                ProblemKind.REFUSED, Where.NOWHERE, "This store has no graph to look at.", "Open one that has."));
    }

    /** {@return whether the database answers, and what it is} */
    Health health();

    @Override
    void close();
}
