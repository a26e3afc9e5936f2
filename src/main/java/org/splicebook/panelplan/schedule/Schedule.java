package org.splicebook.panelplan.schedule;

import java.util.List;

/**
 * A schedule that was found.
 *
 * @param task what was asked
 * @param placed every unit in its place, in the order of the task
 * @param stages how good it is, by goal in order
 */
public record Schedule(ScheduleTask task, List<PlacedUnit> placed, List<Stage> stages) {
    /**
     * How good it is by one goal, the goals before it being held.
     *
     * @param goal which goal
     * @param value what it comes to
     * @param bound what no schedule goes below, as far as it was proved
     */
    public record Stage(Goal goal, long value, long bound) {
        /** {@return whether it is proved that none is better} */
        public boolean isProved() {
            return value <= bound;
        }
    }

    public Schedule {
        placed = List.copyOf(placed);
        stages = List.copyOf(stages);
    }

    /** {@return whether it is the best by all goals, proved} */
    public boolean isProved() {
        return stages.stream().allMatch(Stage::isProved);
    }

    /** {@return where a unit is} */
    public PlacedUnit of(String unit) {
        return placed.stream()
                .filter(p -> p.unit().equals(unit))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no unit " + unit));
    }
}
