package org.splicebook.wiring.shutoff;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What somebody is about to open, cut or drill into. */
public sealed interface Target {
    /** Boxes or panels, by name. */
    record Boxes(List<String> names) implements Target {
        public Boxes {
            names = List.copyOf(names);
        }
    }

    /** Every box and panel of a place. */
    record Room(String place) implements Target {}

    /** A cable, somewhere along its way. */
    record Cable(String name) implements Target {}

    /**
     * A spot on a wall, floor or ceiling: someone will drill there. Ways of cables are not recorded, so any cable may run there; those
     * that end or pass near are told first.
     *
     * @param place the place, if said
     * @param between the boxes it lies between, if said
     */
    record Spot(@Nullable String place, List<String> between) implements Target {
        public Spot {
            between = List.copyOf(between);
        }
    }

    /** {@return one box or panel} */
    static Target box(String name) {
        return new Boxes(List.of(name));
    }

    /** {@return how people would say it} */
    default String said() {
        if (this instanceof Boxes b) {
            return String.join(", ", b.names());
        } else if (this instanceof Room r) {
            return r.place();
        } else if (this instanceof Cable c) {
            return c.name();
        }
        Spot s = (Spot) this;
        return s.place() != null ? "a spot in " + s.place() : "a spot between " + String.join(" and ", s.between());
    }
}
