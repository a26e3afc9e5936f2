package org.splicebook.rewire;

import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.record.House;

/** Houses as they would be after a draft. */
public final class Drafts {
    private Drafts() {}

    /** {@return the house after the draft, named as one; or what is wrong with the first move that cannot be made} */
    public static Result<House> of(Draft draft, House before) {
        return Moves.apply(before, draft.moves())
                .map(after -> after.withName("Draft " + draft.name() + " of " + before.said()));
    }
}
