package org.splicebook.wiring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One crossing (or a proper multiwire circuit, which is told the same way).
 *
 * @param kind its kind
 * @param island the neutral island's id; for a meeting with ground without an island, the joint's or bar's name
 * @param poles the poles concerned
 * @param loadPoints the load points concerned
 * @param box the box where feed and return part, or where neutral and ground meet
 * @param device the protective device or breaker across whose boundary it goes
 * @param sureness SHOWN where the record shows it, MAY where it is possible
 */
public record Crossing(
        CrossingKind kind,
        String island,
        List<String> poles,
        List<String> loadPoints,
        @Nullable String box,
        @Nullable String device,
        Sureness sureness) {
    public Crossing {
        poles = List.copyOf(poles);
        loadPoints = List.copyOf(loadPoints);
    }
}
