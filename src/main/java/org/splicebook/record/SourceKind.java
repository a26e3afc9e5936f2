package org.splicebook.record;

import java.util.Locale;

/** What a source is. */
public enum SourceKind {
    /** The utility's service. */
    SERVICE,
    /** A riser or feeder of the building that belongs to nobody in this record. */
    RISER,
    GENERATOR,
    INVERTER,
    BATTERY,
    /** Wiring of another unit. */
    NEIGHBOUR;

    /** {@return the word of the house file} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
