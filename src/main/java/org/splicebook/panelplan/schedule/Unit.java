package org.splicebook.panelplan.schedule;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One breaker that is to be placed whole.
 *
 * @param name its name
 * @param poles its poles; on unlike legs, in neighbouring rows of one column
 * @param mayBeHalf whether half of a tandem will do for it: one pole, no protection that needs the width, nothing that shares its neutral
 * @param allowed the top spaces that it may take; null for any
 * @param locked the place it has to take, as a house file names it ({@code 5+7}, {@code 12}); null where it may move
 */
public record Unit(
        String name,
        List<Pole> poles,
        boolean mayBeHalf,
        @Nullable Set<Integer> allowed,
        @Nullable String locked) {
    /**
     * One pole.
     *
     * @param va the demand on it in volt-amperes
     * @param today the space its wires land in today, in a panel with two columns; 0 where it is new or that tells nothing
     * @param wires how many wires land on it
     */
    public record Pole(int va, int today, int wires) {}

    public Unit {
        poles = List.copyOf(poles);
        allowed = allowed == null ? null : Set.copyOf(allowed);
        if (poles.isEmpty() || poles.size() > 3 || (mayBeHalf && poles.size() > 1)) {
            throw new IllegalArgumentException(name + " of " + poles.size() + " poles");
        }
    }
}
