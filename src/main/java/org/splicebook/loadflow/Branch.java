package org.splicebook.loadflow;

import org.jspecify.annotations.Nullable;

/**
 * What carries current between two nodes.
 *
 * @param name its name, see the package page
 * @param kind what it is
 * @param from the node at its first end
 * @param to the node at its second end
 * @param gate what opens and closes it; null: it always conducts
 * @param ohms resistance at 75 °C; for loads, sources and faults the case says
 * @param reactance at 60 Hz
 * @param perDegree how its resistance grows with each degree, as a share of that at 75 °C
 */
public record Branch(
        String name,
        Kind kind,
        int from,
        int to,
        @Nullable Gate gate,
        double ohms,
        double reactance,
        double perDegree) {
    /** What a branch is. */
    public enum Kind {
        WIRE,
        /** A connection of one member to its joint. */
        ARM,
        /** What always conducts inside a device or panel: a tab, a lug, a bar, a strap. */
        LINK,
        /** A contact: a switch, a breaker pole, a protective contact. */
        CONTACT,
        /** Neutral and ground joined. */
        BOND,
        /** A conductor between a source and the house. */
        DROP,
        WINDING,
        /** A grounding electrode, or a source's own connection to earth. */
        EARTH,
        LOAD,
        FAULT
    }
}
