package org.splicebook.wiring;

/**
 * Positions of levers. A lever not set is joined: its links conduct in every position at once. Also what is taken away.
 */
final class LeverState {
    private static final int JOINED = -1;

    private final Net net;
    private final int[] position;
    private final boolean[] gone;

    LeverState(Net net) {
        this.net = net;
        this.position = new int[net.levers.size()];
        java.util.Arrays.fill(position, JOINED);
        this.gone = new boolean[net.size];
    }

    /** Sets the given levers to the positions that the number {@code index} stands for, counting each combination once. */
    void set(int[] levers, long index) {
        long rest = index;
        for (int l : levers) {
            int n = net.levers.get(l).positions();
            position[l] = (int) (rest % n);
            rest /= n;
        }
    }

    void join(int[] levers) {
        for (int l : levers) {
            position[l] = JOINED;
        }
    }

    void remove(int[] vertices) {
        for (int v : vertices) {
            gone[v] = true;
        }
    }

    void restore(int[] vertices) {
        for (int v : vertices) {
            gone[v] = false;
        }
    }

    /** {@return whether a vertex conducts now} */
    boolean conducts(int v) {
        if (gone[v]) {
            return false;
        }
        int l = net.lever[v];
        return l < 0 || position[l] == JOINED || (net.mask[v] >> position[l] & 1) != 0;
    }

    /** {@return how many combinations the levers have, at most {@code cap + 1}} */
    static long combinations(Net net, int[] levers, long cap) {
        long n = 1;
        for (int l : levers) {
            n *= net.levers.get(l).positions();
            if (n > cap) {
                return cap + 1;
            }
        }
        return n;
    }
}
