package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.splicebook.record.Move;
import org.splicebook.rewire.search.Protecting;

/**
 * A protective device that might be put in, or one that is there and might protect more.
 *
 * @param at the breaker or device as it is called afterwards: {@code main.5}, {@code bath-1}
 * @param what what it is, in a few words
 * @param moves the moves
 * @param sites the boxes and panels to open
 * @param price what its part costs
 * @param touched what no other candidate may touch as well
 */
record Candidate(String at, String what, List<Move> moves, Set<String> sites, int price, Set<String> touched) {
    Candidate {
        moves = List.copyOf(moves);
        sites = Set.copyOf(sites);
        touched = Set.copyOf(touched);
    }

    /** {@return whether both cannot be done: they go for the same breaker, device or wire} */
    boolean excludes(Candidate other) {
        return touched.stream().anyMatch(other.touched::contains);
    }

    /** {@return the same with words on the faces of devices that have no ground} */
    Candidate labelled(List<String> devices) {
        List<Move> all = new ArrayList<>(moves);
        devices.forEach(d -> all.add(Protecting.label(d)));
        return new Candidate(at, what + ", labelled as without a ground", all, sites, price, touched);
    }

    /** {@return it in words, with where it is} */
    String said() {
        return at + ": " + what;
    }
}
