package org.splicebook.wiring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a wire is, by what it is connected to. An empty list: nothing known.
 *
 * @param wire {@code K1.black}
 * @param uses each function it may have
 */
public record WireUse(String wire, List<Use> uses) {
    /**
     * One function of a wire.
     *
     * @param conductor hot, neutral or ground
     * @param pole for hot: of which pole ({@code main.6}); else null
     * @param sureness over which worlds
     */
    public record Use(Conductor conductor, @Nullable String pole, Sureness sureness) {}

    public WireUse {
        uses = List.copyOf(uses);
    }
}
