package org.splicebook.record;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A proposed change: moves that are made, in order, on one revision of a house. It is kept beside the house and counted nowhere.
 *
 * @param name its key
 * @param house the id of the house it changes
 * @param revision the revision it was made from; null where it was made from a file
 * @param reason what it is for, in words
 * @param moves in the order in which they are made
 */
public record Draft(
        String name,
        String house,
        @Nullable Long revision,
        @Nullable String reason,
        List<Move> moves) {
    public Draft {
        moves = List.copyOf(moves);
    }

    /** {@return the same draft, made on that revision, with these moves} */
    public Draft with(long itsRevision, List<Move> itsMoves) {
        return new Draft(name, house, itsRevision, reason, itsMoves);
    }
}
