package org.splicebook.store;

import java.util.List;
import java.util.Locale;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.Move;

/**
 * How far a draft has come.
 *
 * @param draft all its moves, those done among them; its revision, never null, is the one that what is left to do is made on
 * @param done how many of its moves were entered as done, from the first on
 * @param isWithdrawn whether it was given up
 */
public record DraftState(Draft draft, int done, boolean isWithdrawn) {
    /** Where a draft stands. */
    public enum Status {
        OPEN,
        PARTLY_ENTERED,
        ENTERED,
        WITHDRAWN;

        /** {@return the word, for example {@code partly-entered}} */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** Refuses a draft without a revision, and more done than there is. */
    public DraftState {
        if (draft.revision() == null || done < 0 || done > draft.moves().size()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("draft"),
                    "The draft " + draft.name() + " names no revision, or fewer moves than were done.",
                    "Name the revision that it is made on, and keep the moves that were done."));
        }
    }

    /** {@return one of which nothing is done yet} */
    public static DraftState open(Draft draft) {
        return new DraftState(draft, 0, false);
    }

    /** {@return where it stands} */
    public Status status() {
        if (isWithdrawn) {
            return Status.WITHDRAWN;
        }
        return done == 0 ? Status.OPEN : done < draft.moves().size() ? Status.PARTLY_ENTERED : Status.ENTERED;
    }

    /** {@return whether something of it can still be done} */
    public boolean isLive() {
        return status() == Status.OPEN || status() == Status.PARTLY_ENTERED;
    }

    /** {@return the moves that are left, in order} */
    public List<Move> left() {
        return draft.moves().subList(done, draft.moves().size());
    }

    /** {@return the draft of what is left} */
    public Draft rest() {
        return draft.with(base(), left());
    }

    /** {@return the revision that what is left is made on} */
    public long base() {
        Long revision = draft.revision();
        return revision == null ? 0 : revision;
    }
}
