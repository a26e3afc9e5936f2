package org.splicebook.rewire.place;

import java.util.List;
import org.splicebook.record.Move;
import org.splicebook.rules.Finding;

/**
 * Where protective devices are to be.
 *
 * @param wanted what was to be covered
 * @param demands each load point that has to be protected, once for each function
 * @param placed the devices, the panels' first
 * @param uncovered what none of them covers
 * @param asked what a check only asks about, and was left out
 * @param labels words to put on faces that are without a ground and are protected now
 * @param sites the boxes and panels to open
 * @param moves all moves, in order
 * @param cost what all of it costs, opening among it
 * @param beside lesser findings that come with it
 * @param judged how many changed houses were judged
 * @param isProved whether no cheaper choice among the candidates covers as much
 */
public record Placement(
        Wanted wanted,
        List<Demand> demands,
        List<Placed> placed,
        List<Uncovered> uncovered,
        List<Finding> asked,
        List<String> labels,
        List<String> sites,
        List<Move> moves,
        int cost,
        List<String> beside,
        int judged,
        boolean isProved) {
    /**
     * One device.
     *
     * @param at the breaker or device as it is called afterwards
     * @param what what is done, in words
     * @param cost what it costs beside the others: its part, its wires, what is opened for it alone
     * @param covers what it covers
     * @param only what no other of them covers
     * @param instead what might be done in its place, and what might not and why
     */
    public record Placed(
            String at, String what, int cost, List<Demand> covers, List<Demand> only, List<Instead> instead) {
        public Placed {
            covers = List.copyOf(covers);
            only = List.copyOf(only);
            instead = List.copyOf(instead);
        }
    }

    /**
     * What would cover the same.
     *
     * @param what what would be done, in words
     * @param cost what it would cost beside the others
     * @param reasons why it may not be done; none where it may
     */
    public record Instead(String what, int cost, List<String> reasons) {
        public Instead {
            reasons = List.copyOf(reasons);
        }
    }

    /** What is not covered, and why. */
    public record Uncovered(Demand demand, List<String> why) {
        public Uncovered {
            why = List.copyOf(why);
        }
    }

    public Placement {
        demands = List.copyOf(demands);
        placed = List.copyOf(placed);
        uncovered = List.copyOf(uncovered);
        asked = List.copyOf(asked);
        labels = List.copyOf(labels);
        sites = List.copyOf(sites);
        moves = List.copyOf(moves);
        beside = List.copyOf(beside);
    }
}
