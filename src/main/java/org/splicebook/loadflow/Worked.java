package org.splicebook.loadflow;

import java.util.Arrays;

/** A solution with every figure that its elimination passed through, so that others can be worked out from it. By position, volts by node. */
final class Worked {
    /** Entries as they were when each node's turn came. */
    final double[] re;

    final double[] im;
    /** Admittance to the reference at each node's turn. */
    final double[] tieRe;

    final double[] tieIm;
    final double[] totalRe;
    final double[] totalIm;
    /** Current that had come to each node by its turn, and the same over its total. */
    final double[] currentRe;

    final double[] currentIm;
    final double[] shareRe;
    final double[] shareIm;
    final double[] vr;
    final double[] vi;

    /**
     * Works it out.
     *
     * @param parts tied each at one node, by so many siemens
     */
    Worked(Prepared prepared, Admittances y, Parts parts, double tie) {
        Elimination plan = prepared.plan;
        StarMesh mesh = new StarMesh(plan);
        int n = prepared.circuit.nodes().size();
        for (int i = 0; i < y.re.length; i++) {
            if (prepared.entry[i] >= 0) {
                mesh.re[prepared.entry[i]] += y.re[i];
                mesh.im[prepared.entry[i]] += y.im[i];
            }
        }
        for (int v = 0; v < n; v++) {
            mesh.toReferenceRe[plan.position[v]] = parts.stands(v) ? tie : 0;
        }
        mesh.factor();
        re = mesh.re;
        im = mesh.im;
        tieRe = mesh.toReferenceRe;
        tieIm = mesh.toReferenceIm;
        totalRe = mesh.totalRe();
        totalIm = mesh.totalIm();
        currentRe = new double[n];
        currentIm = new double[n];
        shareRe = new double[n];
        shareIm = new double[n];
        for (int v = 0; v < n; v++) {
            currentRe[plan.position[v]] = y.driveRe[v];
            currentIm[plan.position[v]] = y.driveIm[v];
        }
        forward(plan);
        double[] xr = new double[n];
        double[] xi = new double[n];
        for (int v = 0; v < n; v++) {
            xr[plan.position[v]] = y.driveRe[v];
            xi[plan.position[v]] = y.driveIm[v];
        }
        mesh.solve(xr, xi);
        vr = new double[n];
        vi = new double[n];
        Arrays.setAll(vr, v -> xr[plan.position[v]]);
        Arrays.setAll(vi, v -> xi[plan.position[v]]);
    }

    private void forward(Elimination plan) {
        for (int k = 0; k < totalRe.length; k++) {
            double d = totalRe[k] * totalRe[k] + totalIm[k] * totalIm[k];
            shareRe[k] = (currentRe[k] * totalRe[k] + currentIm[k] * totalIm[k]) / d;
            shareIm[k] = (currentIm[k] * totalRe[k] - currentRe[k] * totalIm[k]) / d;
            for (int p = plan.start[k]; p < plan.start[k + 1]; p++) {
                currentRe[plan.row[p]] += re[p] * shareRe[k] - im[p] * shareIm[k];
                currentIm[plan.row[p]] += re[p] * shareIm[k] + im[p] * shareRe[k];
            }
        }
    }
}
