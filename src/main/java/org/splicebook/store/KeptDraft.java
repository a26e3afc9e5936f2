package org.splicebook.store;

import java.time.Instant;
import org.splicebook.record.Draft;

/**
 * A draft that is kept beside its house.
 *
 * @param state the draft and how far it has come
 * @param version counted from 1: every write makes the next
 * @param stored when it was last written
 * @param who who wrote it
 */
public record KeptDraft(DraftState state, long version, Instant stored, String who) {
    /** {@return its moves and its name} */
    public Draft draft() {
        return state.draft();
    }

    /** {@return its name, unique among the drafts of its house} */
    public String name() {
        return draft().name();
    }
}
