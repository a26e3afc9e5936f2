package org.splicebook.loadflow;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Deque;
import java.util.List;

/** Follows wires home from a node to the poles and bars at which its circuit ends, as everything stands in one solution. */
public final class Trace {
    private final Solution solution;
    private final List<List<Integer>> at = new ArrayList<>();

    /**
     * Where wires lead from a node without passing a load, a bus or a bar.
     *
     * @param poles the breaker and fuse poles, as branches
     * @param bars the bars, lugs and terminals of sources, as nodes, that are met otherwise
     */
    public record Home(List<Integer> poles, List<Integer> bars) {
        public Home {
            poles = List.copyOf(poles);
            bars = List.copyOf(bars);
        }
    }

    /** Made ready for one solution. */
    public Trace(Solution solution) {
        this.solution = solution;
        Circuit circuit = solution.circuit();
        for (int v = 0; v < circuit.nodes().size(); v++) {
            at.add(new ArrayList<>(2));
        }
        for (int i = 0; i < circuit.branches().size(); i++) {
            Branch b = circuit.branches().get(i);
            if (b.kind() != Branch.Kind.LOAD && b.kind() != Branch.Kind.WINDING && solution.isClosed(i)) {
                at.get(b.from()).add(i);
                at.get(b.to()).add(i);
            }
        }
    }

    /** {@return where a node's wires lead} */
    public Home home(int node) {
        Circuit circuit = solution.circuit();
        List<Integer> poles = new ArrayList<>();
        List<Integer> bars = new ArrayList<>();
        BitSet seen = new BitSet();
        Deque<Integer> open = new ArrayDeque<>();
        seen.set(node);
        open.add(node);
        while (!open.isEmpty()) {
            int v = open.remove();
            for (int i : at.get(v)) {
                Branch b = circuit.branches().get(i);
                int other = b.from() == v ? b.to() : b.from();
                if (circuit.isBar(other) && isPole(b)) {
                    poles.add(i);
                } else if (!seen.get(other)) {
                    seen.set(other);
                    if (circuit.isBar(other)) {
                        bars.add(other);
                    } else {
                        open.add(other);
                    }
                }
            }
        }
        Collections.sort(poles);
        return new Home(poles, bars);
    }

    /** {@return whether a branch is the pole of a breaker or fuse} */
    static boolean isPole(Branch b) {
        return b.kind() == Branch.Kind.CONTACT && b.gate() != null && b.gate().part() != null;
    }
}
