package org.splicebook.wiring.evidence;

import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * The contradictions among some facts.
 *
 * @param found smallest sets of facts that cannot all hold; empty only if all of the facts can
 * @param all whether there are no others; else the search met its bound and was not carried further
 * @param disputed the sightings in any of them, and where not all was searched every sighting that may be in one
 */
record Conflicts(List<Conflict> found, boolean all, Set<String> disputed) {
    Conflicts {
        found = List.copyOf(found);
        disputed = Collections.unmodifiableSet(new TreeSet<>(disputed));
    }

    /** {@return whether all facts can hold, and this was searched to the end} */
    boolean isEmpty() {
        return found.isEmpty() && all;
    }
}
