package org.splicebook.web;

import java.util.List;
import java.util.function.Function;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.rewire.place.Costs;
import org.splicebook.rewire.place.PlacementAnswer;
import org.splicebook.rewire.place.Placements;
import org.splicebook.rewire.place.Wanted;
import org.splicebook.rewire.search.Search;
import org.splicebook.rewire.search.SearchAnswer;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Pack;
import org.splicebook.store.StoredHouse;

/**
 * Something that is looked for in a house and takes a while: a change that cures or gives something, a placement of protective devices.
 *
 * @param question it as a question
 * @param most how many changed houses are judged at most; 0 where only the search itself knows
 * @param pack what the house is checked by
 * @param work looks for it
 */
record Sought(String question, int most, Function<House, Pack> pack, Work work) {
    /** How many changes a search judges at most. */
    private static final int MOST = 2000;

    /**
     * What came out.
     *
     * @param answer it, told
     * @param drafts each of its proposals as a draft, the best first
     */
    record Outcome(Answer answer, List<Draft> drafts) {
        Outcome {
            drafts = List.copyOf(drafts);
        }
    }

    /** Told on the way how many of how many were judged; false is an end. */
    @FunctionalInterface
    interface Progress {
        boolean goesOn(int judged, int of);
    }

    /** Looks for something. */
    @FunctionalInterface
    interface Work {
        Result<Outcome> find(StoredHouse house, Pack pack, Progress progress);
    }

    /** {@return a search for a change} */
    static Sought change(Wish wish, Function<House, Pack> pack) {
        return new Sought(
                "Which change would " + wish.said() + "?",
                MOST,
                pack,
                (stored, its, progress) -> Search.of(
                                stored.house(),
                                its,
                                wish,
                                Kinds.standard(),
                                MOST,
                                looked -> progress.goesOn(looked, MOST))
                        .map(found -> new Outcome(
                                SearchAnswer.of(
                                        found,
                                        stored.house(),
                                        wish,
                                        stored.revision().number(),
                                        stored.revision().stored()),
                                SearchAnswer.drafts(
                                        found,
                                        stored.house(),
                                        wish,
                                        stored.revision().number()))));
    }

    /** {@return a placement of protective devices} */
    static Sought placement(Wanted wanted, Function<House, Pack> pack) {
        return new Sought(
                "Where do protective devices go for " + wanted.said() + "?",
                0,
                pack,
                (stored, its, progress) -> Placements.of(
                                stored.house(), its, Kinds.standard(), Costs.standard(), wanted, progress::goesOn)
                        .map(p -> {
                            long revision = stored.revision().number();
                            Draft draft = PlacementAnswer.draft(p, stored.house(), "placement", revision);
                            return new Outcome(
                                    PlacementAnswer.of(
                                            p,
                                            stored.house(),
                                            revision,
                                            stored.revision().stored()),
                                    draft == null ? List.of() : List.of(draft));
                        }));
    }
}
