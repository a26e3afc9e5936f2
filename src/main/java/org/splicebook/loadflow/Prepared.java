package org.splicebook.loadflow;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

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
        this(circuit, null);
    }

    /** Takes the order over, where one is given: it has to hold an entry for every branch. */
    private Prepared(Circuit circuit, @Nullable Elimination known) {
        this(circuit, known, new boolean[circuit.nodes().size()]);
    }

    /** {@return a circuit whose elimination leaves some nodes to the end} */
    static Prepared last(Circuit circuit, boolean[] nodes) {
        return new Prepared(circuit, null, nodes);
    }

    private Prepared(Circuit circuit, @Nullable Elimination known, boolean[] last) {
        this.circuit = circuit;
        int n = circuit.branches().size();
        from = new int[n];
        to = new int[n];
        entry = new int[n];
        for (int i = 0; i < n; i++) {
            from[i] = circuit.branches().get(i).from();
            to[i] = circuit.branches().get(i).to();
        }
        plan = known != null ? known : Elimination.of(circuit.nodes().size(), from, to, last);
        for (int i = 0; i < n; i++) {
            entry[i] = from[i] == to[i] ? -1 : plan.between(from[i], to[i]);
        }
    }

    /** {@return the same with branches that run otherwise, each between nodes that some branch joins already} */
    Prepared rerouted(Map<Integer, Branch> replaced) {
        return new Prepared(circuit.with(replaced, List.of()), plan);
    }
}
