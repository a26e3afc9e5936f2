package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

/**
 * Solves a house in any number of cases.
 *
 * <p>The circuit and the order of its elimination are worked out once; a case costs its numbers only. Safe for use by several threads.
 */
public final class LoadFlow {
    private static final int MOST_KEPT = 16;

    private final Circuit circuit;
    private final Map<List<Fault>, Prepared> prepared = new ConcurrentHashMap<>();

    private LoadFlow(Circuit circuit) {
        this.circuit = circuit;
    }

    /** {@return the load flow of a house} */
    public static LoadFlow of(House house) {
        return new LoadFlow(Circuit.of(house));
    }

    /** {@return the circuit that is solved, without faults} */
    public Circuit circuit() {
        return circuit;
    }

    /** {@return the solution of a case, or a problem for every name in it that nothing answers to} */
    public Result<Solution> solve(LoadCase state) {
        List<Problem> problems = Names.check(circuit, state);
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        return Result.ok(new Solver(prepare(state), state).solve());
    }

    private Prepared prepare(LoadCase state) {
        List<Fault> structural = state.faults().stream()
                .filter(f -> f instanceof Fault.Touch || f instanceof Fault.OnLeg)
                .toList();
        Prepared known = prepared.get(structural);
        if (known != null) {
            return known;
        }
        Prepared made = new Prepared(structural.isEmpty() ? circuit : faulty(structural));
        if (prepared.size() >= MOST_KEPT) {
            prepared.keySet().removeIf(k -> !k.isEmpty());
        }
        prepared.put(structural, made);
        return made;
    }

    private Circuit faulty(List<Fault> structural) {
        Map<Integer, Branch> replaced = new HashMap<>();
        List<Branch> added = new ArrayList<>();
        for (Fault f : structural) {
            if (f instanceof Fault.Touch s) {
                added.add(new Branch(
                        "fault-" + (added.size() + 1),
                        Branch.Kind.FAULT,
                        node(s.from()),
                        node(s.to()),
                        null,
                        s.ohms(),
                        0,
                        0));
            } else if (f instanceof Fault.OnLeg l) {
                int pole = Objects.requireNonNull(circuit.findBranch(l.pole()));
                Branch b = circuit.branches().get(pole);
                replaced.put(
                        pole,
                        new Branch(
                                b.name(),
                                b.kind(),
                                node(l.bus()),
                                b.to(),
                                b.gate(),
                                b.ohms(),
                                b.reactance(),
                                b.perDegree()));
            }
        }
        return circuit.with(replaced, added);
    }

    private int node(String name) {
        return Objects.requireNonNull(circuit.findNode(name));
    }
}
