package org.splicebook.rules;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Two checks beside each other: before a change and after it.
 *
 * @param cured found before and no more
 * @param added found now and not before
 * @param changed found both times, with something else said, or surer or less sure
 * @param same found both times, the same said
 */
public record Comparison(List<Finding> cured, List<Finding> added, List<Change> changed, List<Finding> same) {
    /** One thing, as found before and as found now. */
    public record Change(Finding before, Finding after) {}

    public Comparison {
        cured = List.copyOf(cured);
        added = List.copyOf(added);
        changed = List.copyOf(changed);
        same = List.copyOf(same);
    }

    /** {@return what differs between two checks by the same pack} */
    public static Comparison of(List<Finding> before, List<Finding> after) {
        Map<String, Finding> left = new LinkedHashMap<>();
        before.forEach(f -> left.put(f.key(), f));
        List<Finding> added = new ArrayList<>();
        List<Change> changed = new ArrayList<>();
        List<Finding> same = new ArrayList<>();
        for (Finding f : after) {
            Finding was = left.remove(f.key());
            if (was == null) {
                added.add(f);
            } else if (was.said().equals(f.said()) && was.certainty() == f.certainty()) {
                same.add(f);
            } else {
                changed.add(new Change(was, f));
            }
        }
        return new Comparison(List.copyOf(left.values()), added, changed, same);
    }
}
