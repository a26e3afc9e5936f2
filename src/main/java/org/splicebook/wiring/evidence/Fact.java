package org.splicebook.wiring.evidence;

import java.util.List;

/** Something held to be so: a sighting, or what the record says. */
public sealed interface Fact extends Comparable<Fact> {
    /** A sighting, by id. */
    record Sighted(String sighting) implements Fact {}

    /**
     * What the record says of a point.
     *
     * @param point the point
     * @param says what it says
     * @param of of which breakers or device
     */
    record Recorded(String point, Says says, List<String> of) implements Fact {
        public Recorded {
            of = List.copyOf(of);
        }
    }

    /** What the record may say of a point. */
    enum Says {
        /** That these breakers feed it, in every position of the switches. */
        FED_BY,
        /** That nothing but these breakers can feed it. */
        FED_BY_NOTHING_BUT,
        /** That it is fed past this protective device. */
        FED_PAST,
        /** That it is fed through this protective device alone. */
        FED_ONLY_THROUGH,
        /** That it is joined to this point by wires. */
        JOINED_TO
    }

    @Override
    default int compareTo(Fact o) {
        return toString().compareTo(o.toString());
    }
}
