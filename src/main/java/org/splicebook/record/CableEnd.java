package org.splicebook.record;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Where an end of a cable is. */
public sealed interface CableEnd {
    /** In a box or panel. */
    record At(String box) implements CableEnd {}

    /** Nobody found it. */
    record Unknown() implements CableEnd {}

    /** In one of these boxes or panels. */
    record OneOf(List<String> boxes) implements CableEnd {
        public OneOf {
            boxes = List.copyOf(boxes);
        }
    }

    /** {@return the box, if exactly known, else null} */
    default @Nullable String boxOrNull() {
        return this instanceof At at ? at.box() : null;
    }
}
