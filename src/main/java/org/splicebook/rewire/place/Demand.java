package org.splicebook.rewire.place;

import org.splicebook.record.Protection;

/**
 * A load point that has to be protected.
 *
 * @param function against what
 * @param point the load point
 * @param why what asks for it, in words
 * @param isSure whether the record shows that it has none; else it may have none, which is not enough
 */
public record Demand(Protection function, String point, String why, boolean isSure) {
    /** {@return it in a few words} */
    public String said() {
        return point + " (" + function.word() + ")";
    }
}
