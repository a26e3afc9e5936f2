package org.splicebook.rewire.place;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/**
 * Which of several sets to take so that they cover the most, and of those that do at the least cost: a hitting set in which what two
 * have in common to open is paid once. What turned out not to hold is told to it, and it chooses again.
 */
final class Choice {
    /** One thread finds the same choice each time. */
    private static final int THREADS = 1;

    private static final double SECONDS = 10;

    /** One more covered is worth more than all that there is to pay; one thing less to put in breaks ties. */
    private static final long UNIT = 1000;

    private final CpModel model = new CpModel();
    private final List<BoolVar> taken = new ArrayList<>();
    private final List<BoolVar> covered = new ArrayList<>();
    private boolean isProved = true;

    /**
     * @param costs what each costs by itself
     * @param ties of what costs the same that is taken which has less of this: moves, load points protected unasked
     * @param opens what each has to open
     * @param opening what it costs to open each of those
     * @param covers for each thing to be covered, which cover it
     * @param alone pairs that exclude each other
     */
    Choice(
            List<Integer> costs,
            List<Integer> ties,
            List<Set<String>> opens,
            Map<String, Integer> opening,
            List<BitSet> covers,
            List<int[]> alone) {
        Loader.loadNativeLibraries();
        LinearExprBuilder cost = LinearExpr.newBuilder();
        long most = 0;
        Map<String, BoolVar> open = new TreeMap<>();
        for (Map.Entry<String, Integer> e : opening.entrySet()) {
            BoolVar o = model.newBoolVar("open " + e.getKey());
            open.put(e.getKey(), o);
            cost.addTerm(o, e.getValue() * UNIT);
            most += e.getValue() * UNIT;
        }
        for (int i = 0; i < costs.size(); i++) {
            BoolVar x = model.newBoolVar("take " + i);
            taken.add(x);
            long its = costs.get(i) * UNIT + 1 + ties.get(i);
            cost.addTerm(x, its);
            most += its;
            for (String o : opens.get(i)) {
                model.addImplication(x, Objects.requireNonNull(open.get(o), o));
            }
        }
        for (int d = 0; d < covers.size(); d++) {
            BoolVar y = model.newBoolVar("covered " + d);
            covered.add(y);
            LinearExprBuilder by = LinearExpr.newBuilder();
            covers.get(d).stream().forEach(i -> by.add(taken.get(i)));
            model.addGreaterOrEqual(by, y);
            cost.addTerm(y, -(most + 1));
        }
        alone.forEach(p -> model.addLessOrEqual(
                LinearExpr.newBuilder().add(taken.get(p[0])).add(taken.get(p[1])), 1));
        model.minimize(cost);
    }

    /** None that takes all of these is chosen again. */
    void neverAll(BitSet these) {
        LinearExprBuilder all = LinearExpr.newBuilder();
        these.stream().forEach(i -> all.add(taken.get(i)));
        model.addLessOrEqual(all, these.cardinality() - 1);
    }

    /** With these and no others taken, one thing is not covered. */
    void leavesOut(BitSet these, int what) {
        LinearExprBuilder differs = LinearExpr.newBuilder();
        for (int i = 0; i < taken.size(); i++) {
            differs.addTerm(taken.get(i), these.get(i) ? -1 : 1);
        }
        differs.add(these.cardinality());
        model.addGreaterOrEqual(differs, covered.get(what));
    }

    /** {@return the best choice that is left; none where nothing was found in time} */
    BitSet best() {
        CpSolver solver = new CpSolver();
        // The solver leaves Ctrl-C to the program.
        solver.getParameters()
                .setMaxTimeInSeconds(SECONDS)
                .setNumWorkers(THREADS)
                .setCatchSigintSignal(false)
                .setRandomSeed(1);
        CpSolverStatus status = solver.solve(model);
        isProved = status == CpSolverStatus.OPTIMAL;
        BitSet best = new BitSet();
        if (status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE) {
            for (int i = 0; i < taken.size(); i++) {
                best.set(i, solver.booleanValue(taken.get(i)));
            }
        }
        return best;
    }

    /** {@return whether the last choice was shown to be the best} */
    boolean isProved() {
        return isProved;
    }
}
