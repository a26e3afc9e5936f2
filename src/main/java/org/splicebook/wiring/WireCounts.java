package org.splicebook.wiring;

import java.util.Arrays;

/** How often each wire is in a use, and among how many cases. */
final class WireCounts {
    /** In place of a root. */
    static final int NEUTRAL = -1;

    static final int GROUND = -2;

    private static final int[] NOTHING = {};

    /** By vertex: roots (or {@link #NEUTRAL}, {@link #GROUND}) and counts in turn. */
    private final int[][] uses;

    private final int[] cases;

    WireCounts(Net net) {
        uses = new int[net.size][];
        cases = new int[net.size];
    }

    /** Begins to count a wire's uses. */
    void begin(int wire, int caseCount) {
        uses[wire] = NOTHING;
        cases[wire] = caseCount;
    }

    /** Counts so many cases more. */
    void count(int wire, int root, int more) {
        int[] known = uses[wire];
        for (int i = 0; i < known.length; i += 2) {
            if (known[i] == root) {
                known[i + 1] += more;
                return;
            }
        }
        uses[wire] = Arrays.copyOf(known, known.length + 2);
        uses[wire][known.length] = root;
        uses[wire][known.length + 1] = more;
    }

    /** {@return how many cases there are, or {@link Reach#JOINED}} */
    int cases(int wire) {
        return cases[wire];
    }

    /** {@return how many uses a wire has} */
    int size(int wire) {
        return uses[wire] == null ? 0 : uses[wire].length / 2;
    }

    int root(int wire, int use) {
        return uses[wire][2 * use];
    }

    /** {@return in how many cases} */
    int times(int wire, int use) {
        return uses[wire][2 * use + 1];
    }
}
