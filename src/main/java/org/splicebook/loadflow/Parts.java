package org.splicebook.loadflow;

/** The parts of a circuit that hang together in one state, loads conducting too. */
final class Parts {
    private final int[] parent;
    private final boolean[] fed;

    Parts(int nodes) {
        parent = new int[nodes];
        fed = new boolean[nodes];
        for (int i = 0; i < nodes; i++) {
            parent[i] = i;
        }
    }

    /** {@return the node that stands for a node's part} */
    int of(int node) {
        int v = node;
        while (parent[v] != v) {
            parent[v] = parent[parent[v]];
            v = parent[v];
        }
        return v;
    }

    void join(int a, int b) {
        int x = of(a);
        int y = of(b);
        if (x < y) { // the lower number stands for the part: earth, if it is in it
            parent[y] = x;
        } else {
            parent[x] = y;
        }
    }

    /** {@return the parts of a circuit with these admittances} */
    static Parts of(Prepared prepared, Admittances y) {
        Parts p = new Parts(prepared.circuit.nodes().size());
        for (int i = 0; i < y.re.length; i++) {
            if (y.re[i] != 0 || y.im[i] != 0) {
                p.join(prepared.from[i], prepared.to[i]);
            }
        }
        prepared.circuit.sources().forEach(s -> p.feed(s.star()));
        return p;
    }

    void feed(int node) {
        fed[of(node)] = true;
    }

    boolean isFed(int node) {
        return fed[of(node)];
    }

    boolean stands(int node) {
        return parent[node] == node;
    }
}
