package org.splicebook.wiring;

import java.util.List;

/** What a loss does to one conductor of a load point, over trunk positions and the positions of its parts, which are independent. */
enum Outcome {
    KEPT,
    /** Reached in fewer cases than before. */
    FEWER,
    /** Reached in no case, and before in some. */
    LOST;

    /** Counts the cases in which nothing is reached, before and after; what the loss leaves untouched has no {@code After}. */
    static Outcome of(List<Part> parts, After[] after, Conductor conductor) {
        boolean touched = false;
        double all = parts.get(0).trunkPositions;
        for (Part p : parts) {
            all *= p.positions;
            After a = after[p.index];
            touched |= a != null && a.of(conductor) != p.of(conductor);
        }
        if (!touched) {
            return KEPT;
        }
        double nothingBefore = 0;
        double nothingAfter = 0;
        for (int t = 0; t < parts.get(0).trunkPositions; t++) {
            double before = 1;
            double now = 1;
            for (Part p : parts) {
                After a = after[p.index];
                before *= nothing(p.of(conductor), t, p.positions);
                now *= nothing(a == null ? p.of(conductor) : a.of(conductor), t, p.positions);
            }
            nothingBefore += before;
            nothingAfter += now;
        }
        if (nothingBefore < all && nothingAfter == all) {
            return LOST;
        }
        return nothingAfter > nothingBefore ? FEWER : KEPT;
    }

    private static int nothing(long[] masks, int trunkPosition, int positions) {
        int n = 0;
        for (int k = trunkPosition * positions; k < (trunkPosition + 1) * positions; k++) {
            n += masks[k] == 0 ? 1 : 0;
        }
        return n;
    }
}
