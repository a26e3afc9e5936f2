package org.splicebook.wiring;

/**
 * Positions of levers. A lever not set is joined: its links conduct in every position at once. Also what is taken away.
 */
final class LeverState {
    private static final byte GONE = 1;
    private static final byte THROWN = 2;

    private final Net net;
    /** By lever: its links. */
    private final int[][] links;
    /** By vertex: why it does not conduct, 0 where it does. */
    private final byte[] shut;

    LeverState(Net net) {
        this.net = net;
        this.shut = new byte[net.size];
        Ints[] found = new Ints[net.levers.size()];
        for (int v = 0; v < net.size; v++) {
            int l = net.lever[v];
            if (l >= 0) {
                found[l] = found[l] == null ? new Ints(4) : found[l];
                found[l].add(v);
            }
        }
        this.links = new int[found.length][];
        for (int l = 0; l < found.length; l++) {
            links[l] = found[l] == null ? Regions.NONE : found[l].toArray();
        }
    }

    /** Sets the given levers to the positions that the number {@code index} stands for, counting each combination once. */
    void set(int[] levers, long index) {
        long rest = index;
        for (int l : levers) {
            int n = net.levers.get(l).positions();
            long at = rest % n;
            rest /= n;
            for (int v : links[l]) {
                boolean isOn = (net.mask[v] >> at & 1) != 0;
                shut[v] = (byte) (isOn ? shut[v] & ~THROWN : shut[v] | THROWN);
            }
        }
    }

    void join(int[] levers) {
        for (int l : levers) {
            for (int v : links[l]) {
                shut[v] &= ~THROWN;
            }
        }
    }

    void remove(int[] vertices) {
        for (int v : vertices) {
            shut[v] |= GONE;
        }
    }

    void restore(int[] vertices) {
        for (int v : vertices) {
            shut[v] &= ~GONE;
        }
    }

    /** {@return whether a vertex conducts now} */
    boolean conducts(int v) {
        return shut[v] == 0;
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
