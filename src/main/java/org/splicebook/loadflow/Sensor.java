package org.splicebook.loadflow;

import java.util.List;
import java.util.Set;
import org.splicebook.record.Ordered;
import org.splicebook.record.Protection;

/**
 * A protective device in the circuit: it sees the sum of the currents of its branches, all counted away from the source.
 *
 * @param name the device ({@code bath-gf}), breaker ({@code main.8}) or main ({@code main.main})
 * @param functions what it protects against
 * @param branches the branches through its sensor, each from line to load
 */
public record Sensor(String name, Set<Protection> functions, List<Integer> branches) {
    public Sensor {
        functions = Ordered.set(functions);
        branches = List.copyOf(branches);
    }
}
