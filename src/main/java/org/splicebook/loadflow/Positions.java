package org.splicebook.loadflow;

import java.util.HashSet;
import java.util.Objects;
import java.util.Set;

/** What is open and what closed in one case. */
final class Positions {
    private final Circuit circuit;
    private final LoadCase state;
    private final Set<Integer> broken = new HashSet<>();
    private final Set<String> stuck = new HashSet<>();

    Positions(Circuit circuit, LoadCase state) {
        this.circuit = circuit;
        this.state = state;
        for (Fault f : state.faults()) {
            if (f instanceof Fault.Open o) {
                broken.add(Objects.requireNonNull(circuit.findBranch(o.branch())));
            } else if (f instanceof Fault.OpenJoint o) {
                broken.addAll(circuit.armsOf(Objects.requireNonNull(circuit.findNode(o.joint()))));
            } else if (f instanceof Fault.Stuck s) {
                stuck.add(s.contact());
            }
        }
    }

    boolean isBroken(int branch) {
        return broken.contains(branch);
    }

    boolean isClosed(Branch b) {
        Gate g = b.gate();
        if (g == null || stuck.contains(b.name())) {
            return true;
        }
        if (g.isLever()) {
            String position = state.levers().get(g.thing());
            return g.positions().contains(position == null ? first(g.thing()) : position);
        }
        return isClosed(g.thing()) && (g.part() == null || g.part().equals(g.thing()) || isClosed(g.part()));
    }

    private boolean isClosed(String thing) {
        Boolean said = state.closed().get(thing);
        return said == null ? !circuit.openAsFound().contains(thing) : said;
    }

    private String first(String lever) {
        return Objects.requireNonNull(circuit.levers().get(lever)).get(0);
    }
}
