package org.splicebook.loadflow;

import java.util.Arrays;
import java.util.List;

/**
 * Solves one case: voltages for linear loads at once; other loads by turns, each time with the admittance that they have at the voltage
 * found before.
 */
final class Solver {
    private static final int MOST_TURNS = 200;
    private static final double SETTLED = 1e-10;
    /** Ties one node of each part to the reference. No current flows in it, so its size is of no account. */
    private static final double TIE = 1e9;

    private final LoadFlow.Prepared prepared;
    private final Circuit circuit;
    private final LoadCase state;
    private final Admittances y;
    private final Parts parts;
    private final List<Loads.On> loads;
    private final StarMesh mesh;
    private final double[] vr;
    private final double[] vi;

    Solver(LoadFlow.Prepared prepared, LoadCase state) {
        this.prepared = prepared;
        this.circuit = prepared.circuit();
        this.state = state;
        this.y = new Admittances(circuit, state);
        this.loads = Loads.in(circuit, state);
        this.mesh = new StarMesh(prepared.plan());
        this.vr = new double[circuit.nodes().size()];
        this.vi = new double[vr.length];
        loads.forEach(l -> y.admit(l.branch(), l.load().admittance(l.nominalVolts())));
        this.parts = parts();
    }

    private Parts parts() {
        Parts p = new Parts(circuit.nodes().size());
        List<Branch> branches = circuit.branches();
        for (int i = 0; i < branches.size(); i++) {
            if (y.re[i] != 0 || y.im[i] != 0) {
                p.join(branches.get(i).from(), branches.get(i).to());
            }
        }
        circuit.sources().forEach(s -> p.feed(s.star()));
        return p;
    }

    Solution solve() {
        voltages();
        boolean settled = true;
        if (loads.stream().anyMatch(l -> !l.load().isLinear())) {
            settled = settle();
        }
        return new Solution(circuit, state, y, parts, loads, vr, vi, settled);
    }

    private boolean settle() {
        double damping = 1;
        double last = Double.POSITIVE_INFINITY;
        for (int turn = 0; turn < MOST_TURNS; turn++) {
            double change = 0;
            for (Loads.On l : loads) {
                if (l.load().isLinear()) {
                    continue;
                }
                int i = l.branch();
                Branch b = circuit.branches().get(i);
                double volts = Math.hypot(vr[b.from()] - vr[b.to()], vi[b.from()] - vi[b.to()]);
                Complex want = l.load().admittance(l.nominalVolts(), volts);
                double dr = want.re() - y.re[i];
                double di = want.im() - y.im[i];
                change = Math.max(change, Math.hypot(dr, di) / want.magnitude());
                y.re[i] += damping * dr;
                y.im[i] += damping * di;
            }
            if (change < SETTLED) {
                return true;
            }
            if (change > 0.9 * last && damping > 0.05) {
                damping *= 0.7;
            }
            last = change;
            voltages();
        }
        return false;
    }

    /** Voltages of all nodes for the admittances as they stand. */
    private void voltages() {
        Elimination plan = prepared.plan();
        Arrays.fill(mesh.re, 0);
        Arrays.fill(mesh.im, 0);
        Arrays.fill(mesh.toReferenceRe, 0);
        Arrays.fill(mesh.toReferenceIm, 0);
        for (int i = 0; i < y.re.length; i++) {
            int entry = prepared.entries().get(i);
            if (entry >= 0) {
                mesh.re[entry] += y.re[i];
                mesh.im[entry] += y.im[i];
            }
        }
        int n = vr.length;
        double[] xr = new double[n];
        double[] xi = new double[n];
        for (int v = 0; v < n; v++) {
            int k = plan.position[v];
            xr[k] = y.driveRe[v];
            xi[k] = y.driveIm[v];
            if (parts.stands(v)) {
                mesh.toReferenceRe[k] = TIE;
            }
        }
        mesh.factor();
        mesh.solve(xr, xi);
        for (int v = 0; v < n; v++) {
            vr[v] = xr[plan.position[v]];
            vi[v] = xi[plan.position[v]];
        }
    }
}
