package org.splicebook.loadflow;

import java.util.Arrays;
import java.util.List;

/**
 * Solves one case: voltages for linear loads at once; other loads by turns, each time with the current that they take at the voltage
 * found before.
 */
final class Solver {
    private static final int MOST_CHEAP_TURNS = 40;
    private static final int MOST_TURNS = 200;
    private static final double SETTLED = 1e-11;
    /** Ties one node of each part to the reference. No current flows in it, so its size is of no account. */
    static final double TIE = 1e9;

    private final Prepared prepared;
    private final LoadCase state;
    private final Admittances y;
    private final Parts parts;
    private final List<Loads.On> bent;
    private final StarMesh mesh;
    private final double[] vr;
    private final double[] vi;
    /** Currents driven into the nodes beside those of the sources. */
    private final double[] extraRe;

    private final double[] extraIm;

    private final double settled;

    Solver(Prepared prepared, LoadCase state) {
        this(prepared, state, admittances(prepared.circuit, state), bent(prepared.circuit, state), SETTLED);
    }

    /** {@return every admittance of a case, those of the loads at their nominal voltage} */
    static Admittances admittances(Circuit circuit, LoadCase state) {
        Admittances y = new Admittances(circuit, state);
        Loads.in(circuit, state).forEach(l -> y.admit(l.branch(), l.load().admittance(l.nominalVolts())));
        return y;
    }

    static List<Loads.On> bent(Circuit circuit, LoadCase state) {
        return Loads.in(circuit, state).stream()
                .filter(l -> !l.load().isLinear())
                .toList();
    }

    /**
     * @param y every admittance, those of the loads too
     * @param bent the loads whose current is not in proportion to their voltage
     * @param settled by which share their admittances may still change when they count as settled
     */
    Solver(Prepared prepared, LoadCase state, Admittances y, List<Loads.On> bent, double settled) {
        this.prepared = prepared;
        this.state = state;
        this.y = y;
        this.bent = bent;
        this.settled = settled;
        this.mesh = new StarMesh(prepared.plan);
        int nodes = prepared.circuit.nodes().size();
        this.vr = new double[nodes];
        this.vi = new double[nodes];
        this.extraRe = new double[nodes];
        this.extraIm = new double[nodes];
        this.parts = Parts.of(prepared, y);
    }

    Solution solve() {
        factor();
        voltages();
        boolean atRest = bent.isEmpty() || settledByCurrents() || settledByAdmittances();
        return new Solution(prepared.circuit, state, y, parts, vr, vi, atRest);
    }

    /** The cheap way: the circuit stays as it is, and what a load takes more or less is a current of its own. */
    private boolean settledByCurrents() {
        for (int turn = 0; turn < MOST_CHEAP_TURNS; turn++) {
            Arrays.fill(extraRe, 0);
            Arrays.fill(extraIm, 0);
            for (Loads.On l : bent) {
                Complex less = inCircuit(l).minus(wanted(l)).times(across(l));
                extraRe[prepared.from[l.branch()]] += less.re();
                extraIm[prepared.from[l.branch()]] += less.im();
                extraRe[prepared.to[l.branch()]] -= less.re();
                extraIm[prepared.to[l.branch()]] -= less.im();
            }
            List<Complex> before = bent.stream().map(this::wanted).toList();
            voltages();
            double change = 0;
            for (int i = 0; i < bent.size(); i++) {
                Complex now = wanted(bent.get(i));
                change = Math.max(change, now.minus(before.get(i)).magnitude() / now.magnitude());
            }
            if (change < settled) {
                for (int i = 0; i < bent.size(); i++) {
                    y.admit(bent.get(i).branch(), before.get(i));
                }
                return true;
            }
        }
        return false;
    }

    /** The slow way, for loads in series and the like: new admittances each time, moved there by ever smaller steps. */
    private boolean settledByAdmittances() {
        Arrays.fill(extraRe, 0);
        Arrays.fill(extraIm, 0);
        double step = 1;
        double last = Double.POSITIVE_INFINITY;
        for (int turn = 0; turn < MOST_TURNS; turn++) {
            double change = 0;
            for (Loads.On l : bent) {
                Complex off = wanted(l).minus(inCircuit(l));
                change = Math.max(change, off.magnitude() / wanted(l).magnitude());
                y.admit(l.branch(), inCircuit(l).plus(off.times(step)));
            }
            factor();
            voltages();
            if (change < settled) {
                return true;
            }
            if (change > 0.9 * last && step > 0.05) {
                step *= 0.7;
            }
            last = change;
        }
        return false;
    }

    private Complex inCircuit(Loads.On l) {
        return new Complex(y.re[l.branch()], y.im[l.branch()]);
    }

    private Complex across(Loads.On l) {
        int a = prepared.from[l.branch()];
        int b = prepared.to[l.branch()];
        return new Complex(vr[a] - vr[b], vi[a] - vi[b]);
    }

    private Complex wanted(Loads.On l) {
        return l.load().admittance(l.nominalVolts(), across(l).magnitude());
    }

    /** Takes the admittances as they stand. */
    private void factor() {
        Arrays.fill(mesh.re, 0);
        Arrays.fill(mesh.im, 0);
        Arrays.fill(mesh.toReferenceRe, 0);
        Arrays.fill(mesh.toReferenceIm, 0);
        for (int i = 0; i < y.re.length; i++) {
            int entry = prepared.entry[i];
            if (entry >= 0) {
                mesh.re[entry] += y.re[i];
                mesh.im[entry] += y.im[i];
            }
        }
        for (int v = 0; v < vr.length; v++) {
            if (parts.stands(v)) {
                mesh.toReferenceRe[prepared.plan.position[v]] = TIE;
            }
        }
        mesh.factor();
    }

    private void voltages() {
        int[] position = prepared.plan.position;
        double[] xr = new double[vr.length];
        double[] xi = new double[vr.length];
        for (int v = 0; v < vr.length; v++) {
            xr[position[v]] = y.driveRe[v] + extraRe[v];
            xi[position[v]] = y.driveIm[v] + extraIm[v];
        }
        mesh.solve(xr, xi);
        for (int v = 0; v < vr.length; v++) {
            vr[v] = xr[position[v]];
            vi[v] = xi[position[v]];
        }
    }
}
