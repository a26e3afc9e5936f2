package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Checks that every name in a case means something in the circuit. */
final class Names {
    private final Circuit circuit;
    private final List<Problem> problems = new ArrayList<>();

    private Names(Circuit circuit) {
        this.circuit = circuit;
    }

    static List<Problem> check(Circuit circuit, LoadCase state) {
        Names n = new Names(circuit);
        state.levers().forEach(n::lever);
        state.closed().keySet().forEach(n::gate);
        state.loads().keySet().forEach(n::load);
        state.ohms().forEach((name, ohms) -> {
            n.branch("ohms", name);
            n.ohms("ohms." + name, ohms);
        });
        for (String s : state.sources().keySet()) {
            if (circuit.sources().stream().noneMatch(x -> x.name().equals(s))) {
                n.unknown("sources", s, "a source");
            }
        }
        for (int i = 0; i < state.faults().size(); i++) {
            n.fault("faults[" + i + "]", state.faults().get(i));
        }
        return n.problems;
    }

    private void unknown(String where, String name, String what) {
        problems.add(Problem.error(
                ProblemKind.DANGLING_NAME,
                Where.field(where),
                "There is no " + what.replaceFirst("^an? ", "") + " \"" + name + "\".",
                "Name " + what + " as the house file does."));
    }

    private void lever(String lever, String position) {
        List<String> positions = circuit.levers().get(lever);
        if (positions == null) {
            unknown("levers", lever, "a lever");
        } else if (!positions.contains(position)) {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("levers." + lever),
                    "The lever has no position \"" + position + "\".",
                    "It has " + String.join(", ", positions) + "."));
        }
    }

    private void gate(String name) {
        if (!circuit.gates().contains(name)) {
            unknown("closed", name, "a breaker, main, pole or protective device");
        }
    }

    private void load(String name) {
        Integer branch = circuit.findBranch(name);
        boolean known = branch != null && circuit.branches().get(branch).kind() == Branch.Kind.LOAD;
        if (!known
                && circuit.loadPoints().stream()
                        .noneMatch(p -> p.name().equals(name) || p.device().equals(name) || name.equals(p.place()))) {
            unknown("loads", name, "a load point or place");
        }
    }

    private void branch(String where, String name) {
        if (circuit.findBranch(name) == null) {
            unknown(where, name, "a wire, connection, pole or link");
        }
    }

    private void node(String where, String name) {
        if (circuit.findNode(name) == null) {
            unknown(where, name, "a terminal, wire end, bar or joint");
        }
    }

    private void ohms(String where, double ohms) {
        if (!(ohms >= 0) || Double.isInfinite(ohms)) {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE, Where.field(where), "It is " + ohms + " ohm.", "Give ohms from 0 up."));
        }
    }

    private void fault(String where, Fault f) {
        if (f instanceof Fault.Open o) {
            branch(where, o.branch());
        } else if (f instanceof Fault.OpenJoint o) {
            node(where, o.joint());
        } else if (f instanceof Fault.Loose l) {
            branch(where, l.branch());
            ohms(where, l.ohms());
        } else if (f instanceof Fault.Touch s) {
            node(where, s.from());
            node(where, s.to());
            ohms(where, s.ohms());
        } else if (f instanceof Fault.OnLeg l) {
            branch(where, l.pole());
            node(where, l.bus());
        } else if (f instanceof Fault.Stuck s) {
            branch(where, s.contact());
        }
    }
}
