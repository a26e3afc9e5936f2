package org.splicebook.wiring;

import java.util.List;

/**
 * What is lost with a thing.
 *
 * @param mode how it is lost
 * @param thing what is lost
 * @param rows the load points that change
 */
public record Loss(LossMode mode, Thing thing, List<LossRow> rows) {
    public Loss {
        rows = List.copyOf(rows);
    }
}
