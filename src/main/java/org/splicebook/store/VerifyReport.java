package org.splicebook.store;

import java.util.List;

/**
 * What verification found.
 *
 * @param houses how many houses were looked at
 * @param differences what differs, in words, house by house
 * @param rebuilt the houses whose graph was rebuilt
 */
public record VerifyReport(int houses, List<String> differences, List<String> rebuilt) {
    public VerifyReport {
        differences = List.copyOf(differences);
        rebuilt = List.copyOf(rebuilt);
    }

    /** {@return whether nothing differs, or all that did was rebuilt} */
    public boolean clean() {
        return differences.isEmpty();
    }
}
