package org.splicebook.survey;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * What somebody told of a fault.
 *
 * @param observed the symptoms, each with its condition
 * @param touched boxes and panels that were worked on last
 * @param read it in words, one line for each thing, as it was understood
 */
public record Told(List<Observed> observed, Set<String> touched, List<String> read) {
    public Told {
        observed = List.copyOf(observed);
        touched = Set.copyOf(new TreeSet<>(touched));
        read = List.copyOf(read);
    }

    /** {@return the load points of which it was told that they are in that state as things usually are} */
    public Set<String> points(Symptom.Level level) {
        Set<String> points = new TreeSet<>();
        for (Observed o : observed) {
            if (o.symptom() instanceof Symptom.Works w
                    && w.level() == level
                    && o.when().equals(Condition.USUAL)) {
                points.add(w.point());
            }
        }
        return points;
    }
}
