package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * Something that is part of a box and counts for the room in it.
 *
 * @param kind what it is
 * @param size of a ring made from a box of standard size: which; null when not said
 * @param volume its marked volume; null when not marked or not known
 * @param material what a barrier is made of; null when not said
 * @param wire with a terminal block: the size of the largest wire on it, as written; null when not known
 * @param note free words
 */
public record BoxPart(
        Kind kind,
        @Nullable StandardBox size,
        @Nullable Quantity volume,
        @Nullable String material,
        @Nullable String wire,
        @Nullable String note) {
    /** What a part of a box is. */
    public enum Kind {
        EXTENSION_RING,
        PLASTER_RING,
        RAISED_COVER,
        BARRIER,
        STUD,
        HICKEY,
        TERMINAL_BLOCK
    }
}
