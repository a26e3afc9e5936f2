package org.splicebook.panelplan.upgrade;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.ToLongFunction;

/**
 * Chooses which sets of circuits move, as a constraint problem: within what source, legs and spaces bear, one motor starting while all else
 * runs; then, one goal after the other, what is wanted in its order, what should not be without power, as many load points as can be, and
 * as little demand as can be. A panel that only makes room takes as few wires as can be, then as little demand.
 */
final class SubpanelChoice {
    private static final double SECONDS = 5;

    /**
     * What was chosen.
     *
     * @param sets the sets that move
     * @param legs the leg of each circuit of one pole, by its name
     * @param isProved whether none is better, proved
     */
    record Chosen(Set<Movable> sets, Map<String, Integer> legs, boolean isProved) {}

    private final SubpanelWanted wanted;
    private final List<Movable> sets;
    private final CpModel model = new CpModel();
    private final Map<Movable, BoolVar> moves = new LinkedHashMap<>();
    private final Map<String, BoolVar> onSecond = new LinkedHashMap<>();

    SubpanelChoice(SubpanelWanted wanted, List<Movable> sets) {
        this.wanted = wanted;
        this.sets = List.copyOf(sets);
    }

    /** {@return the choice; null where a panel that is to make room cannot} */
    @org.jspecify.annotations.Nullable
    Chosen choose() {
        Loader.loadNativeLibraries();
        for (Movable m : sets) {
            BoolVar v = model.newBoolVar(m.said());
            moves.put(m, v);
            if (!m.whyNot().isEmpty()) {
                model.addEquality(v, 0);
            }
        }
        limits();
        boolean isProved = true;
        CpSolver last = null;
        for (LinearExpr goal : goals()) {
            model.minimize(goal);
            CpSolver solver = new CpSolver();
            // The solver leaves Ctrl-C to the program.
            solver.getParameters()
                    .setMaxTimeInSeconds(SECONDS)
                    .setNumWorkers(1)
                    .setCatchSigintSignal(false)
                    .setRandomSeed(1);
            CpSolverStatus status = solver.solve(model);
            if (status != CpSolverStatus.OPTIMAL && status != CpSolverStatus.FEASIBLE) {
                return null;
            }
            isProved &= status == CpSolverStatus.OPTIMAL;
            last = solver;
            model.clearObjective();
            model.addLessOrEqual(goal, Math.round(solver.objectiveValue()));
        }
        return read(Objects.requireNonNull(last), isProved);
    }

    private LinearExpr sum(ToLongFunction<Movable> of) {
        LinearExprBuilder sum = LinearExpr.newBuilder();
        moves.forEach((m, v) -> sum.addTerm(v, of.applyAsLong(m)));
        return sum.build();
    }

    /** Demands are rounded up, so that what is chosen is never too much by a rounding. */
    private static long up(double va) {
        return (long) Math.ceil(va - 1e-6);
    }

    private void limits() {
        model.addLessOrEqual(sum(Movable::poles), wanted.rooms().size());
        model.addLessOrEqual(sum(m -> up(m.va())), (long) wanted.bears());
        Double surge = wanted.surge();
        if (surge != null) {
            moves.forEach((m, v) -> {
                if (m.starts() > 0) {
                    model.addLessOrEqual(sum(x -> up(x.va())), surge.longValue() - up(m.starts()))
                            .onlyEnforceIf(v);
                }
            });
        }
        if (wanted.isBackedUp()) {
            legs();
        } else {
            model.addGreaterOrEqual(sum(Movable::poles), wanted.free() + 2L);
            legs();
        }
    }

    /** Circuits of one pole go on either leg; those of two take half of their demand from each, or as their poles are. */
    private void legs() {
        if (wanted.isBackedUp() && !wanted.twoLegs()) {
            return;
        }
        LinearExprBuilder first = LinearExpr.newBuilder();
        LinearExprBuilder second = LinearExpr.newBuilder();
        LinearExprBuilder firstPoles = LinearExpr.newBuilder();
        LinearExprBuilder secondPoles = LinearExpr.newBuilder();
        moves.forEach((m, v) -> {
            for (Circuit c : m.circuits()) {
                List<Circuit.Pole> poles = c.poles();
                if (poles.size() > 1) {
                    first.addTerm(v, up(poles.get(0).va()));
                    second.addTerm(v, up(poles.get(1).va()));
                    firstPoles.add(v);
                    secondPoles.add(v);
                } else {
                    BoolVar b = model.newBoolVar(c.name() + " on the second leg");
                    BoolVar a = model.newBoolVar(c.name() + " on the first leg");
                    onSecond.put(c.name(), b);
                    model.addEquality(LinearExpr.sum(new Literal[] {a, b}), v);
                    first.addTerm(a, up(poles.get(0).va()));
                    second.addTerm(b, up(poles.get(0).va()));
                    firstPoles.add(a);
                    secondPoles.add(b);
                }
            }
        });
        model.addLessOrEqual(first.build(), (long) wanted.legBears());
        model.addLessOrEqual(second.build(), (long) wanted.legBears());
        model.addLessOrEqual(firstPoles.build(), wanted.rooms(0));
        model.addLessOrEqual(secondPoles.build(), wanted.rooms(1));
    }

    private List<LinearExpr> goals() {
        List<LinearExpr> goals = new ArrayList<>();
        if (wanted.isBackedUp()) {
            for (String w : wanted.want()) {
                goals.add(sum(m -> m.isOf(w) ? -1 : 0));
            }
            List<String> keep = UpgradeData.list("keep-alive");
            goals.add(sum(m -> -m.words().stream().filter(keep::contains).count()));
            goals.add(sum(m -> -m.points()));
        } else {
            goals.add(sum(Movable::wires));
        }
        goals.add(sum(m -> up(m.va())));
        return goals;
    }

    private Chosen read(CpSolver solver, boolean isProved) {
        Map<String, Integer> legs = new LinkedHashMap<>();
        Set<Movable> chosen = new java.util.LinkedHashSet<>();
        moves.forEach((m, v) -> {
            if (solver.booleanValue(v)) {
                chosen.add(m);
                m.circuits().stream()
                        .filter(c -> onSecond.containsKey(c.name()))
                        .forEach(c -> legs.put(
                                c.name(), solver.booleanValue(Objects.requireNonNull(onSecond.get(c.name()))) ? 1 : 0));
            }
        });
        return new Chosen(chosen, legs, isProved);
    }
}
