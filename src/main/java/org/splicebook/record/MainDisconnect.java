package org.splicebook.record;

import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A panel's main: all supply poles pass it, the neutral does not.
 *
 * @param poles how many poles
 * @param type breaker or fuses; fuses in one pull-out open together by hand
 * @param rating amperes, if known
 * @param protects functions beside overcurrent
 * @param position as it was found
 * @param about basis, age, note
 */
public record MainDisconnect(
        int poles,
        OvercurrentType type,
        @Nullable Quantity rating,
        Set<Protection> protects,
        Breaker.Position position,
        Provenance about) {
    public MainDisconnect {
        protects = Ordered.set(protects);
    }
}
