package org.splicebook.drafts;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.CarriedOver;
import org.splicebook.rewire.Drafts;
import org.splicebook.rewire.Entered;
import org.splicebook.rewire.Moves;
import org.splicebook.store.DraftState;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/**
 * What is done with drafts that are kept. Every method throws a {@link ProblemException} when it cannot be done; then nothing was
 * stored.
 */
public final class DraftDesk {
    private static final Pattern NAME = Pattern.compile("[a-z0-9](-?[a-z0-9]){0,59}");
    /** Words that stand where a draft's name does in addresses. */
    private static final Set<String> TAKEN = Set.of("told", "drawings", "questions", "new");

    private final HouseStore store;

    /** Works on the drafts of a store. */
    public DraftDesk(HouseStore store) {
        this.store = store;
    }

    /** {@return the house in its newest revision} */
    public StoredHouse house(String id) {
        return store.findHouse(id)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "house",
                        "There is no house '" + id + "'.",
                        "Look at the list of houses."));
    }

    /** {@return a draft that is kept} */
    public KeptDraft find(String house, String name) {
        return store.findDraft(house, name)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "draft",
                        "The house " + house + " has no draft '" + name + "'.",
                        "Look at the list of its drafts."));
    }

    /** {@return the revision that what is left of a draft is made on} */
    public StoredHouse base(KeptDraft kept) {
        return base(kept.draft().house(), kept.state().base());
    }

    private StoredHouse base(String house, long revision) {
        return store.findRevision(house, revision)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "revision",
                        "The house " + house + " has no revision " + revision + ".",
                        "Name one of its history, or leave the revision out."));
    }

    /** {@return the house as it would be after what is left of a draft, on the revision that it is made on} */
    public DraftedHouse drafted(KeptDraft kept) {
        StoredHouse base = base(kept);
        return drafted(kept.state().rest(), base);
    }

    /** {@return the house as it would be after a draft} */
    public static DraftedHouse drafted(Draft draft, StoredHouse base) {
        return new DraftedHouse(draft, Drafts.of(draft, base.house()).get(), base.revision());
    }

    /**
     * Keeps a draft, new or changed. Its moves must be possible on the revision that it names; where it names none, that is the one it had,
     * or the newest.
     *
     * @param expected the version that it was made from, 0 for a new one
     */
    public KeptDraft save(Draft draft, long expected, String who) {
        if (!NAME.matcher(draft.name()).matches() || TAKEN.contains(draft.name())) {
            throw wrong(
                    ProblemKind.BAD_NAME,
                    "draft",
                    "A draft that is kept cannot be called '" + draft.name() + "'.",
                    "Use small letters, digits and single hyphens, up to 60, and none of "
                            + String.join(", ", TAKEN.stream().sorted().toList()) + ".");
        }
        StoredHouse newest = house(draft.house());
        KeptDraft before = store.findDraft(draft.house(), draft.name()).orElse(null);
        Long said = draft.revision();
        long base = said != null
                ? said
                : before == null ? newest.revision().number() : before.state().base();
        int done = before == null ? 0 : before.state().done();
        if (before != null && done > 0) {
            List<Move> did = before.draft().moves().subList(0, done);
            if (done == before.draft().moves().size()) {
                throw entered(before);
            }
            if (draft.moves().size() < done || !draft.moves().subList(0, done).equals(did)) {
                throw wrong(
                        ProblemKind.CONFLICT,
                        "moves",
                        "The first " + done + " moves of " + draft.name() + " were entered as done.",
                        "Leave those as they are, and change what comes after.");
            }
        }
        DraftState state = new DraftState(draft.with(base, draft.moves()), done, false);
        House unused =
                Moves.apply(base(draft.house(), base).house(), state.left()).get();
        return store.putDraft(state, expected, who).get();
    }

    /** {@return the boxes, panels and cables that what is left touches and that were recorded otherwise since} */
    public List<String> conflicts(KeptDraft kept, StoredHouse newest) {
        return kept.state().base() == newest.revision().number()
                ? List.of()
                : CarriedOver.conflicts(
                        base(kept).house(), newest.house(), kept.state().left());
    }

    /**
     * Makes what is left of a draft a change of the newest revision.
     *
     * @param expected the version that was looked at
     * @param although whether it is carried over although it touches what was recorded otherwise since
     */
    public KeptDraft carryOver(KeptDraft kept, long expected, boolean although, String who) {
        refuseDone(kept);
        StoredHouse newest = house(kept.draft().house());
        refuseConflicts(kept, newest, although);
        House unused = Moves.apply(newest.house(), kept.state().left()).get();
        DraftState over = new DraftState(
                kept.draft().with(newest.revision().number(), kept.draft().moves()),
                kept.state().done(),
                false);
        return store.putDraft(over, expected, who).get();
    }

    /**
     * Records what was done of a draft: its next moves, joints that they made as seen.
     *
     * @param expected the version that was looked at
     * @param steps how many of the moves that are left
     * @param although whether it is entered although it touches what was recorded otherwise since it was made
     * @param day the day of the work, {@code 2026-05-17}
     */
    public Revision enter(KeptDraft kept, long expected, int steps, boolean although, String who, String day) {
        refuseDone(kept);
        int left = kept.state().left().size();
        if (steps < 1 || steps > left) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    "steps",
                    left == 0 ? "The draft has no moves." : "Of the draft " + left + " steps are left.",
                    left == 0 ? "Add what is to be done first." : "Say a number from 1 to " + left + ".");
        }
        StoredHouse newest = house(kept.draft().house());
        refuseConflicts(kept, newest, although);
        House after =
                Entered.of(newest.house(), kept.state().left(), steps, day).get();
        int all = kept.draft().moves().size();
        int from = kept.state().done();
        DraftState state = new DraftState(
                kept.draft().with(newest.revision().number() + 1, kept.draft().moves()), from + steps, false);
        String part = steps == all ? "" : ", steps " + (from + 1) + " to " + (from + steps) + " of " + all;
        return store.enterDraft(after, state, expected, who, "done: " + kept.name() + part)
                .get();
    }

    /** Gives a draft up. What was entered of it stays as it is recorded. */
    public KeptDraft withdraw(KeptDraft kept, long expected, String who) {
        if (kept.state().status() == DraftState.Status.ENTERED) {
            throw entered(kept);
        }
        return store.putDraft(new DraftState(kept.draft(), kept.state().done(), true), expected, who)
                .get();
    }

    /**
     * What a draft is compared with: its house in the newest revision where what is left of it can be done there as it was meant, else in
     * the one that it was made on.
     *
     * @param house the revision
     * @param rest what is left of the draft
     * @param since what has to be said of the revisions since then
     */
    public record Comparison(StoredHouse house, Draft rest, List<String> since) {
        public Comparison {
            since = List.copyOf(since);
        }

        /** {@return the house as it would be} */
        public DraftedHouse drafted() {
            return DraftDesk.drafted(rest, house);
        }
    }

    /** {@return what a draft is compared with} */
    public Comparison compared(KeptDraft kept) {
        StoredHouse newest = house(kept.draft().house());
        Draft rest = kept.state().rest();
        if (kept.state().base() == newest.revision().number()) {
            return new Comparison(newest, rest, List.of());
        }
        StoredHouse base = base(kept);
        if (!kept.state().isLive()) {
            return new Comparison(base, rest, List.of());
        }
        List<String> since = new ArrayList<>();
        conflicts(kept, newest)
                .forEach(c -> since.add(
                        "Recorded otherwise since revision " + kept.state().base() + ": " + c + "."));
        Result<House> there = Moves.apply(newest.house(), rest.moves());
        there.problems().forEach(p -> since.add("On the newest revision it cannot be made. " + p.said()));
        return since.isEmpty() ? new Comparison(newest, rest, since) : new Comparison(base, rest, since);
    }

    private void refuseConflicts(KeptDraft kept, StoredHouse newest, boolean although) {
        List<String> conflicts = conflicts(kept, newest);
        if (!conflicts.isEmpty() && !although) {
            throw wrong(
                    ProblemKind.CONFLICT,
                    "revision",
                    "Recorded otherwise since revision " + kept.state().base() + ": " + String.join(", ", conflicts)
                            + ".",
                    "Look at the draft again on the newest revision; if it still holds, say that it is to be carried over.");
        }
    }

    private static void refuseDone(KeptDraft kept) {
        if (kept.state().status() == DraftState.Status.ENTERED) {
            throw entered(kept);
        }
        if (!kept.state().isLive()) {
            throw wrong(
                    ProblemKind.CONFLICT,
                    "draft",
                    "The draft " + kept.name() + " was withdrawn.",
                    "Save it again to take it up.");
        }
    }

    private static ProblemException entered(KeptDraft kept) {
        return wrong(
                ProblemKind.CONFLICT,
                "draft",
                "The draft " + kept.name() + " was entered as done.",
                "Begin another; what was done is undone in the history of the house.");
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }

    /** {@return a draft with a move more at its end} */
    public static Draft with(Draft draft, List<Move> more) {
        List<Move> all = new ArrayList<>(draft.moves());
        all.addAll(more);
        return new Draft(draft.name(), draft.house(), draft.revision(), draft.reason(), all);
    }

    /** {@return a draft without one of its moves, counted from 0} */
    public static Draft without(Draft draft, int move) {
        List<Move> all = new ArrayList<>(draft.moves());
        all.remove(move);
        return new Draft(draft.name(), draft.house(), draft.revision(), draft.reason(), all);
    }
}
