package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * A room or area.
 *
 * @param name its key
 * @param title what people call it; the key where nothing else is said
 * @param kind what it is
 * @param finished whether it is finished space, where that matters and is known
 * @param level the storey, as written: {@code 0}, {@code 1}, {@code 0-1}
 * @param about basis, age, note
 */
public record Place(
        String name,
        @Nullable String title,
        PlaceKind kind,
        @Nullable Boolean finished,
        @Nullable String level,
        Provenance about) {
    /** {@return the title, or the key} */
    public String said() {
        return title == null ? name : title;
    }
}
