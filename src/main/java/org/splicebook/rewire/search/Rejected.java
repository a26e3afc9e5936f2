package org.splicebook.rewire.search;

import java.util.List;

/**
 * A change that would do what is wanted and may not be made.
 *
 * @param cost what it would take
 * @param steps the moves in words
 * @param reasons why not
 */
public record Rejected(Cost cost, List<String> steps, List<String> reasons) {
    public Rejected {
        steps = List.copyOf(steps);
        reasons = List.copyOf(reasons);
    }
}
