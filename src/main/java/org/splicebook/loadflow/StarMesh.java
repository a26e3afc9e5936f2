package org.splicebook.loadflow;

/**
 * Solves a circuit by star-mesh transformation: every node in turn is taken out, the admittances of its star becoming a mesh among its
 * neighbours, and its injected current being shared out to them; then the voltages are filled in backwards.
 *
 * <p>It is the factorisation of the nodal admittance matrix without its diagonal. Since passive admittances are only ever added and
 * multiplied, nothing cancels: a tenth of a microohm beside a megohm costs no digits, which a factorisation of the matrix itself would
 * lose.
 *
 * <p>One of these holds the working space of one thread.
 */
final class StarMesh {
    private final Elimination plan;
    /** Admittance of each entry; filled by the caller before {@link #factor}. */
    final double[] re;

    final double[] im;
    /** Admittance of each node, by position, to the reference. */
    final double[] toReferenceRe;

    final double[] toReferenceIm;
    private final double[] totalRe;
    private final double[] totalIm;

    StarMesh(Elimination plan) {
        this.plan = plan;
        int entries = plan.row.length;
        int nodes = plan.order.length;
        re = new double[entries];
        im = new double[entries];
        toReferenceRe = new double[nodes];
        toReferenceIm = new double[nodes];
        totalRe = new double[nodes];
        totalIm = new double[nodes];
    }

    /** {@return the whole admittance of each node at its turn, by position} */
    double[] totalRe() {
        return totalRe;
    }

    /** {@return its imaginary part} */
    double[] totalIm() {
        return totalIm;
    }

    /** Takes all nodes out. The entries then hold the stars as they were when each node's turn came. */
    void factor() {
        factor(0, totalRe.length);
    }

    /** Takes the nodes from one position to before another out, those before them being out. */
    void factor(int first, int end) {
        int[] start = plan.start;
        int[] row = plan.row;
        for (int k = first; k < end; k++) {
            double dr = toReferenceRe[k];
            double di = toReferenceIm[k];
            for (int p = start[k]; p < start[k + 1]; p++) {
                dr += re[p];
                di += im[p];
            }
            double d = dr * dr + di * di;
            if (d == 0) { // nothing on it: it stays at the reference and is said to float
                totalRe[k] = 1;
                totalIm[k] = 0;
                continue;
            }
            totalRe[k] = dr;
            totalIm[k] = di;
            int at = plan.meshStart[k];
            for (int p = start[k]; p < start[k + 1]; p++) {
                double fr = (re[p] * dr + im[p] * di) / d;
                double fi = (im[p] * dr - re[p] * di) / d;
                toReferenceRe[row[p]] += fr * toReferenceRe[k] - fi * toReferenceIm[k];
                toReferenceIm[row[p]] += fr * toReferenceIm[k] + fi * toReferenceRe[k];
                for (int q = p + 1; q < start[k + 1]; q++) {
                    int m = plan.mesh[at++];
                    re[m] += fr * re[q] - fi * im[q];
                    im[m] += fr * im[q] + fi * re[q];
                }
            }
        }
    }

    /** Turns injected currents into voltages to the reference, in place, by position. */
    void solve(double[] xr, double[] xi) {
        solve(0, xr, xi);
    }

    /** Does so from a position on, no current being injected before it; voltages before it are left as they are. */
    void solve(int first, double[] xr, double[] xi) {
        int[] start = plan.start;
        int[] row = plan.row;
        int n = totalRe.length;
        for (int k = first; k < n; k++) {
            double d = totalRe[k] * totalRe[k] + totalIm[k] * totalIm[k];
            double cr = (xr[k] * totalRe[k] + xi[k] * totalIm[k]) / d;
            double ci = (xi[k] * totalRe[k] - xr[k] * totalIm[k]) / d;
            xr[k] = cr;
            xi[k] = ci;
            if (cr != 0 || ci != 0) {
                for (int p = start[k]; p < start[k + 1]; p++) {
                    xr[row[p]] += re[p] * cr - im[p] * ci;
                    xi[row[p]] += re[p] * ci + im[p] * cr;
                }
            }
        }
        back(first, n, xr, xi);
    }

    /** Fills voltages in backwards, from before one position down to another, into what was injected. */
    void back(int first, int end, double[] xr, double[] xi) {
        int[] start = plan.start;
        int[] row = plan.row;
        for (int k = end - 1; k >= first; k--) {
            double sr = 0;
            double si = 0;
            for (int p = start[k]; p < start[k + 1]; p++) {
                double vr = xr[row[p]];
                double vi = xi[row[p]];
                sr += re[p] * vr - im[p] * vi;
                si += re[p] * vi + im[p] * vr;
            }
            double d = totalRe[k] * totalRe[k] + totalIm[k] * totalIm[k];
            xr[k] += (sr * totalRe[k] + si * totalIm[k]) / d;
            xi[k] += (si * totalRe[k] - sr * totalIm[k]) / d;
        }
    }
}
