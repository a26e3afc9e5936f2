package org.splicebook.wiring;

import java.util.List;

/** What the terminals of a part reach after a loss: a mask for each case. */
@SuppressWarnings("ArrayRecordComponent") // masks, never compared
record After(long[] hot, long[] neutral, long[] overGround, long[] grounded) {
    /** {@return what is left, where only one way leads to each terminal, when these vertices are gone} */
    static After without(Part p, List<Integer> gone) {
        return new After(
                without(p.hot, p.hotBy, gone),
                without(p.neutral, p.neutralBy, gone),
                without(p.overGround, p.overGroundBy, gone),
                without(p.grounded, p.groundBy, gone));
    }

    private static long[] without(long[] masks, int[][][] by, List<Integer> gone) {
        long[] after = masks.clone();
        for (int c = 0; c < after.length; c++) {
            for (int i = 0; after[c] >>> i != 0; i++) {
                if ((after[c] >> i & 1) != 0 && meets(by[c][i], gone)) {
                    after[c] &= ~(1L << i);
                }
            }
        }
        return after;
    }

    private static boolean meets(int[] chain, List<Integer> gone) {
        for (int v : gone) {
            if (contains(chain, v)) {
                return true;
            }
        }
        return false;
    }

    private static boolean contains(int[] chain, int v) {
        for (int u : chain) {
            if (u == v) {
                return true;
            }
        }
        return false;
    }
}
