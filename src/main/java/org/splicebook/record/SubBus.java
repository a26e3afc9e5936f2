package org.splicebook.record;

import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A second bus of a split-bus panel.
 *
 * @param name its key
 * @param spaces the spaces on it
 * @param fedBy the key of the breaker (on another bus of the panel) whose terminals feed it, leg by leg; null: it is fed
 *     straight from the supply lugs, as every bus without one main is
 * @param about basis, age, note
 */
public record SubBus(
        String name, Set<String> spaces, @Nullable String fedBy, Provenance about) {
    public SubBus {
        spaces = Ordered.set(spaces);
    }
}
