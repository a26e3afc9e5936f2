package org.splicebook.ask;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.ForwardingStore;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;

/**
 * Computed questions about a house as it would be after a draft. What was observed was observed of the house as it stands, so none of it
 * excludes anything here.
 */
public final class DraftQuestions {
    private DraftQuestions() {}

    /**
     * Asks a draft.
     *
     * @param store where the house is kept
     * @param base the house and the revision that the draft is made on
     * @param draft the house as it would be
     * @param question the question's id
     * @param parameters by name
     * @param derivation what the wiring does
     */
    public static Result<Reply> ask(
            HouseStore store,
            StoredHouse base,
            House draft,
            String question,
            Map<String, String> parameters,
            Function<House, Wiring> derivation) {
        Revision r = base.revision();
        // It stands after the revision it is made on, so that what differs is told against that one.
        Revision next = new Revision(
                r.house(), draft.said(), r.number() + 1, r.stored(), r.who(), r.why(), false, r.digest() + " draft");
        // Not closed: it holds nothing, and the store behind belongs to who opened it.
        AnsweringStore answering = new AnsweringStore(new Drafted(store, new StoredHouse(draft, next)), derivation);
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
    private static final class Drafted extends ForwardingStore {
        private final StoredHouse draft;

        Drafted(HouseStore behind, StoredHouse draft) {
            super(behind);
            this.draft = draft;
        }

        @Override
        public Optional<StoredHouse> findHouse(String id) {
            return id.equals(draft.revision().house()) ? Optional.of(draft) : super.findHouse(id);
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
        public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
            String computed = ComputedQuestions.BY_ID.keySet().stream().sorted().collect(Collectors.joining(", "));
            return Result.failed(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("question"),
                    question + " is answered from what is stored, and a draft is not.",
                    "Of a draft can be asked: " + computed + "."));
        }
    }
}
