package org.splicebook.panelplan.schedule;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;

/**
 * A unit in its place.
 *
 * @param unit its name
 * @param spaces the space of each pole, in the order of the unit's poles; the same space twice never
 * @param half which half of a tandem, {@code a} or {@code b}; empty where it fills its space
 */
public record PlacedUnit(String unit, List<Integer> spaces, String half) {
    public PlacedUnit {
        spaces = List.copyOf(spaces);
    }

    /** {@return its spaces as a house file names them, top down: {@code 5+7}, {@code 12a}} */
    public String key() {
        return spaces.stream()
                .sorted(Comparator.naturalOrder())
                .map(s -> s + half)
                .collect(Collectors.joining("+"));
    }

    /** {@return the space of a pole as a house file names it} */
    public String space(int pole) {
        return spaces.get(pole) + half;
    }
}
