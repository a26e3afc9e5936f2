package org.splicebook.loadflow;

/** A circuit with the order of its elimination, and where in it each branch stands. Worked out once for all cases. */
final class Prepared {
    final Circuit circuit;
    final Elimination plan;
    /** The first and second node of each branch. */
    final int[] from;

    final int[] to;
    /** The entry of each branch; -1 for one that returns to the node it starts from. */
    final int[] entry;

    Prepared(Circuit circuit) {
        this.circuit = circuit;
        int n = circuit.branches().size();
        from = new int[n];
        to = new int[n];
        entry = new int[n];
        for (int i = 0; i < n; i++) {
            from[i] = circuit.branches().get(i).from();
            to[i] = circuit.branches().get(i).to();
        }
        plan = Elimination.of(circuit.nodes().size(), from, to);
        for (int i = 0; i < n; i++) {
            entry[i] = from[i] == to[i] ? -1 : plan.between(from[i], to[i]);
        }
    }
}
