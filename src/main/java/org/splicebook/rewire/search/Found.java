package org.splicebook.rewire.search;

import java.util.List;

/**
 * What a search came to.
 *
 * @param proposals changes that passed, the least costly first
 * @param rejected tempting changes that did not, the least costly first
 * @param looked how many houses were judged
 * @param exhausted whether everything within the search's reach was looked at; else a cheaper change may have been missed
 */
public record Found(List<Proposal> proposals, List<Rejected> rejected, int looked, boolean exhausted) {
    public Found {
        proposals = List.copyOf(proposals);
        rejected = List.copyOf(rejected);
    }
}
