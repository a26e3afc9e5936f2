package org.splicebook.ask;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.ForwardingStore;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;

/**
 * Questions about a house as it would be after a draft. What was observed was observed of the house as it stands, so none of it
 * excludes anything here.
 */
final class DraftQuestions {
    private DraftQuestions() {}

    /**
     * Asks a draft.
     *
     * @param store where the house is kept, which answers what is not computed
     * @param drafted the draft, the house as it would be, the revision that it is made on
     * @param question the question's id
     * @param parameters by name
     * @param derivation what the wiring does
     */
    static Result<Reply> ask(
            HouseStore store,
            DraftedHouse drafted,
            String question,
            Map<String, String> parameters,
            Function<House, Wiring> derivation) {
        Revision r = drafted.base();
        // It stands after the revision it is made on, so that what differs is told against that one.
        Revision next = new Revision(
                r.house(),
                drafted.house().said(),
                r.number() + 1,
                r.stored(),
                r.who(),
                r.why(),
                false,
                r.digest() + " draft");
        // Not closed: it holds nothing, and the store behind belongs to who opened it.
        AnsweringStore answering =
                new AnsweringStore(new AsDrafted(store, drafted, new StoredHouse(drafted.house(), next)), derivation);
        return answering.ask(question, r.house(), parameters).map(reply -> marked(reply, r.number()));
    }

    private static Reply marked(Reply reply, long revision) {
        Heading h = reply.heading();
        Heading marked = new Heading(
                h.question(), h.words(), h.house(), h.houseName(), revision, h.stored(), h.parameters(), true);
        return reply instanceof Answer a
                ? new Answer(
                        marked,
                        a.outcome(),
                        a.rows(),
                        a.sections(),
                        a.assumed(),
                        a.notProven(),
                        a.wouldSettle(),
                        a.cautions())
                : new Listing(marked, ((Listing) reply).columns(), ((Listing) reply).rows());
    }

    /** A store in which one house is as a draft makes it, and nothing was observed of it. */
    private static final class AsDrafted extends ForwardingStore {
        private final DraftedHouse drafted;
        private final StoredHouse house;

        AsDrafted(HouseStore behind, DraftedHouse drafted, StoredHouse house) {
            super(behind);
            this.drafted = drafted;
            this.house = house;
        }

        @Override
        public Optional<StoredHouse> findHouse(String id) {
            return id.equals(house.revision().house()) ? Optional.of(house) : super.findHouse(id);
        }

        @Override
        public List<Sighting> sightings(String id) {
            return List.of();
        }

        @Override
        public List<Question> questions() {
            return List.of();
        }

        @Override
        public Result<Reply> ask(String question, String id, Map<String, String> parameters) {
            // What the store tells is of the house after the draft, which counts as the next revision here.
            return behind.askDraft(question, drafted, parameters)
                    .map(reply -> marked(reply, house.revision().number()));
        }
    }
}
