package org.splicebook.loadflow;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * What trips, one after another, and where it may end. Units of one kind differ, so times are bands; where bands overlap, each order
 * that can happen is followed.
 *
 * @param ends every end state that can be reached, the one with the fewest trips first
 * @param whole false where following was cut short, and further ends may exist
 */
public record Cascade(List<End> ends, boolean whole) {
    /**
     * A state in which nothing more trips, or in which some units may hold for ever.
     *
     * @param open what has tripped
     * @param trips one order in which they can have tripped
     * @param mayHold what still carries too much here and may trip or hold; empty where all is quiet
     */
    public record End(Set<String> open, List<Trip> trips, List<Drive> mayHold) {
        public End {
            open = Set.copyOf(open);
            trips = List.copyOf(trips);
            mayHold = List.copyOf(mayHold);
        }
    }

    /**
     * One trip.
     *
     * @param drive what drove it
     * @param earliest seconds from the start, at the earliest
     * @param latest seconds from the start, at the latest; infinite where no unit is bound to open
     */
    public record Trip(Drive drive, double earliest, double latest) {}

    public Cascade {
        ends = List.copyOf(ends);
    }

    /** {@return what trips in every end} */
    public Set<String> mustTrip() {
        Set<String> all = mayTrip();
        if (!whole) {
            all.clear();
        }
        ends.forEach(e -> all.retainAll(e.open()));
        return all;
    }

    /** {@return what trips in some end} */
    public Set<String> mayTrip() {
        Set<String> some = new TreeSet<>();
        ends.forEach(e -> some.addAll(e.open()));
        return some;
    }
}
