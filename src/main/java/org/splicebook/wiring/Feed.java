package org.splicebook.wiring;

import java.util.List;

/**
 * A pole that a load point's terminal reaches.
 *
 * @param breaker the breaker: {@code main.2+4}
 * @param pole its pole: {@code main.2}
 * @param sourcePoles the source poles its bus reaches over feeders: {@code service.l1}; more than one only where feeders are crossed
 * @param terminal the load terminal: {@code bench-1.top.hot}
 * @param sureness over which worlds
 * @param way one shortest way
 */
public record Feed(String breaker, String pole, List<String> sourcePoles, String terminal, Sureness sureness, Way way) {
    public Feed {
        sourcePoles = List.copyOf(sourcePoles);
    }
}
