package org.splicebook.store;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/** A store that hands everything on to another; what extends it does some of it otherwise. */
public abstract class ForwardingStore implements HouseStore {
    /** The store behind this one. */
    protected final HouseStore behind;

    /** Hands on to that store, and closes it when closed. */
    protected ForwardingStore(HouseStore behind) {
        this.behind = behind;
    }

    @Override
    public List<Revision> listHouses() {
        return behind.listHouses();
    }

    @Override
    public Optional<StoredHouse> findHouse(String id) {
        return behind.findHouse(id);
    }

    @Override
    public Optional<StoredHouse> findRevision(String id, long revision) {
        return behind.findRevision(id, revision);
    }

    @Override
    public Optional<StoredHouse> findAsOf(String id, Instant moment) {
        return behind.findAsOf(id, moment);
    }

    @Override
    public List<Revision> revisions(String id) {
        return behind.revisions(id);
    }

    @Override
    public Result<Revision> put(House house, long expected, String who, String why) {
        return behind.put(house, expected, who, why);
    }

    @Override
    public Result<List<Revision>> putAll(Collection<House> houses, String who, String why) {
        return behind.putAll(houses, who, why);
    }

    @Override
    public Result<Revision> delete(String id, long expected, String who, String why) {
        return behind.delete(id, expected, who, why);
    }

    @Override
    public Result<Integer> appendSightings(String id, List<Sighting> sightings) {
        return behind.appendSightings(id, sightings);
    }

    @Override
    public List<Sighting> sightings(String id) {
        return behind.sightings(id);
    }

    @Override
    public Result<Revision> restore(Past past) {
        return behind.restore(past);
    }

    @Override
    public Papers papers() {
        return behind.papers();
    }

    @Override
    public PropertyStore properties() {
        return behind.properties();
    }

    @Override
    public List<Question> questions() {
        return behind.questions();
    }

    @Override
    public void prepare(String question, String house, Map<String, String> parameters) {
        behind.prepare(question, house, parameters);
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        return behind.ask(question, house, parameters);
    }

    @Override
    public List<KeptDraft> drafts(String house) {
        return behind.drafts(house);
    }

    @Override
    public Optional<KeptDraft> findDraft(String house, String name) {
        return behind.findDraft(house, name);
    }

    @Override
    public Result<KeptDraft> putDraft(DraftState state, long expected, String who) {
        return behind.putDraft(state, expected, who);
    }

    @Override
    public Result<Revision> enterDraft(House house, DraftState state, long expected, String who, String why) {
        return behind.enterDraft(house, state, expected, who, why);
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        return behind.askDraft(question, drafted, parameters);
    }

    @Override
    public VerifyReport verify(boolean rebuild, Progress progress) {
        return behind.verify(rebuild, progress);
    }

    @Override
    public Result<Listing> look(String cypher, int most) {
        return behind.look(cypher, most);
    }

    @Override
    public Health health() {
        return behind.health();
    }

    @Override
    public void close() {
        behind.close();
    }
}
