package org.splicebook.loadflow;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Ordered;

/**
 * What opens and closes a branch.
 *
 * @param thing the lever ({@code foot}), breaker ({@code main.2+4}), main ({@code main.main}) or protective device ({@code bath-gf})
 * @param part the pole by itself ({@code main.4}), where one can fail alone
 * @param positions with a lever, the positions in which it conducts; empty for what is open or closed
 */
record Gate(String thing, @Nullable String part, Set<String> positions) {
    Gate {
        positions = Ordered.set(positions);
    }

    boolean isLever() {
        return !positions.isEmpty();
    }
}
