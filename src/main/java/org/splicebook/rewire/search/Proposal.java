package org.splicebook.rewire.search;

import java.util.List;
import org.splicebook.record.Move;

/**
 * A change that passed.
 *
 * @param moves what is done, in order
 * @param cost what it takes
 * @param steps the moves in words
 * @param beside findings that come with it, all of less severity than what it cures, or less than a fault
 */
public record Proposal(List<Move> moves, Cost cost, List<String> steps, List<String> beside) {
    public Proposal {
        moves = List.copyOf(moves);
        steps = List.copyOf(steps);
        beside = List.copyOf(beside);
    }
}
