package org.splicebook.wiring;

/** What the terminals of a part reach after a loss: a mask for each case. */
@SuppressWarnings("ArrayRecordComponent") // masks, never compared
record After(long[] hot, long[] neutral, long[] overGround, long[] grounded) {
    /** {@return what is left, where only one way leads to each terminal, when these vertices are gone} */
    static After without(Part p, int[] gone) {
        return new After(
                without(p.hot, p.hotBy, gone),
                without(p.neutral, p.neutralBy, gone),
                without(p.overGround, p.overGroundBy, gone),
                without(p.grounded, p.groundBy, gone));
    }

    /** {@return whether nothing of a part is lost} */
    boolean isAllOf(Part p) {
        return hot == p.hot && neutral == p.neutral && overGround == p.overGround && grounded == p.grounded;
    }

    /** {@return the masks of load terminals that are hot or reach neutral; for ground those of the ground terminal} */
    long[] of(Conductor conductor) {
        return switch (conductor) {
            case HOT -> hot;
            case NEUTRAL -> neutral;
            case GROUND -> grounded;
        };
    }

    /** The masks themselves where nothing is lost. */
    static long[] without(long[] masks, int[][][] by, int[] gone) {
        long[] after = masks;
        for (int c = 0; c < masks.length; c++) {
            for (int i = 0; masks[c] >>> i != 0; i++) {
                if ((masks[c] >> i & 1) != 0 && meets(by[c][i], gone)) {
                    after = after == masks ? masks.clone() : after;
                    after[c] &= ~(1L << i);
                }
            }
        }
        return after;
    }

    private static boolean meets(int[] chain, int[] gone) {
        for (int v : gone) {
            for (int u : chain) {
                if (u == v) {
                    return true;
                }
            }
        }
        return false;
    }
}
