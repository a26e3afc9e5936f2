package org.splicebook.loadflow;

import java.util.BitSet;
import java.util.List;

/**
 * A solution reworked after a few admittances have changed: only the columns of the elimination that the change reaches are taken anew, and
 * only the nodes whose voltage moves by more than {@link #MOVED_VOLTS}. In a house, which is nearly a tree, that is one circuit and the way
 * to the source.
 *
 * <p>What a column had given to others before is taken back by subtraction, so a part in ten thousand million may be lost; what is cut off
 * is told by {@link Parts}, not by its figures.
 */
final class Reworked {
    private static final double MOVED_VOLTS = 0.01;
    private static final double MOVED_AMPERES = 0.005;
    private static final int MOST_TURNS = 30;
    private static final double TIE = 1e9;

    private final Worked from;
    private final Prepared prepared;
    private final Elimination plan;
    private final double[] re;
    private final double[] im;
    private final double[] tieRe;
    private final double[] tieIm;
    private final double[] totalRe;
    private final double[] totalIm;
    private final double[] shareRe;
    private final double[] shareIm;
    private final double[] currentRe;
    private final double[] currentIm;
    private final BitSet dirty = new BitSet();
    private final BitSet redone = new BitSet();
    final double[] vr;
    final double[] vi;
    /** Nodes whose voltage is not what it was. */
    final BitSet moved = new BitSet();

    Reworked(Worked from, Prepared prepared) {
        this.from = from;
        this.prepared = prepared;
        this.plan = prepared.plan;
        re = from.re.clone();
        im = from.im.clone();
        tieRe = from.tieRe.clone();
        tieIm = from.tieIm.clone();
        totalRe = from.totalRe.clone();
        totalIm = from.totalIm.clone();
        shareRe = from.shareRe.clone();
        shareIm = from.shareIm.clone();
        currentRe = from.currentRe.clone();
        currentIm = from.currentIm.clone();
        vr = from.vr.clone();
        vi = from.vi.clone();
    }

    /** Adds to the admittance of a branch. */
    void add(int branch, double moreRe, double moreIm) {
        int e = prepared.entry[branch];
        if (e >= 0 && (moreRe != 0 || moreIm != 0)) {
            re[e] += moreRe;
            im[e] += moreIm;
            dirty.set(Math.min(plan.position[prepared.from[branch]], plan.position[prepared.to[branch]]));
        }
    }

    /** Ties the parts as they are now. */
    void tie(Parts before, Parts now) {
        for (int v = 0; v < vr.length; v++) {
            if (before.stands(v) != now.stands(v)) {
                int k = plan.position[v];
                tieRe[k] += now.stands(v) ? TIE : -TIE;
                dirty.set(k);
            }
        }
    }

    /** Takes the columns that changed anew, and the voltages that move by it. */
    void solve() {
        for (int k = dirty.nextSetBit(0); k >= 0; k = dirty.nextSetBit(k + 1)) {
            column(k);
        }
        backward();
    }

    private void column(int k) {
        int[] start = plan.start;
        int[] row = plan.row;
        redone.set(k);
        double dr = tieRe[k];
        double di = tieIm[k];
        for (int p = start[k]; p < start[k + 1]; p++) {
            dr += re[p];
            di += im[p];
        }
        double d = dr * dr + di * di;
        boolean isAlone = d < 1e-22; // what subtraction leaves of nothing
        totalRe[k] = isAlone ? 1 : dr;
        totalIm[k] = isAlone ? 0 : di;
        d = isAlone ? 1 : d;
        double or = from.totalRe[k];
        double oi = from.totalIm[k];
        double o = or * or + oi * oi;
        double cr = (currentRe[k] * totalRe[k] + currentIm[k] * totalIm[k]) / d;
        double ci = (currentIm[k] * totalRe[k] - currentRe[k] * totalIm[k]) / d;
        double br = from.shareRe[k];
        double bi = from.shareIm[k];
        shareRe[k] = cr;
        shareIm[k] = ci;
        int at = plan.meshStart[k];
        for (int p = start[k]; p < start[k + 1]; p++) {
            int r = row[p];
            double yr = isAlone ? 0 : re[p];
            double yi = isAlone ? 0 : im[p];
            double fr = (yr * totalRe[k] + yi * totalIm[k]) / d;
            double fi = (yi * totalRe[k] - yr * totalIm[k]) / d;
            double gr = (from.re[p] * or + from.im[p] * oi) / o;
            double gi = (from.im[p] * or - from.re[p] * oi) / o;
            tieRe[r] += fr * tieRe[k] - fi * tieIm[k] - (gr * from.tieRe[k] - gi * from.tieIm[k]);
            tieIm[r] += fr * tieIm[k] + fi * tieRe[k] - (gr * from.tieIm[k] + gi * from.tieRe[k]);
            currentRe[r] += yr * cr - yi * ci - (from.re[p] * br - from.im[p] * bi);
            currentIm[r] += yr * ci + yi * cr - (from.re[p] * bi + from.im[p] * br);
            dirty.set(r);
            for (int q = p + 1; q < start[k + 1]; q++) {
                int m = plan.mesh[at++];
                double qr = isAlone ? 0 : re[q];
                double qi = isAlone ? 0 : im[q];
                re[m] += fr * qr - fi * qi - (gr * from.re[q] - gi * from.im[q]);
                im[m] += fr * qi + fi * qr - (gr * from.im[q] + gi * from.re[q]);
            }
        }
    }

    private void backward() {
        int[] start = plan.start;
        int[] row = plan.row;
        BitSet now = new BitSet();
        for (int k = totalRe.length - 1; k >= 0; k--) {
            boolean touched = redone.get(k);
            for (int p = start[k]; !touched && p < start[k + 1]; p++) {
                touched = now.get(row[p]);
            }
            if (!touched) {
                continue;
            }
            double sr = 0;
            double si = 0;
            for (int p = start[k]; p < start[k + 1]; p++) {
                int v = plan.order[row[p]];
                sr += re[p] * vr[v] - im[p] * vi[v];
                si += re[p] * vi[v] + im[p] * vr[v];
            }
            double d = totalRe[k] * totalRe[k] + totalIm[k] * totalIm[k];
            double x = shareRe[k] + (sr * totalRe[k] + si * totalIm[k]) / d;
            double y = shareIm[k] + (si * totalRe[k] - sr * totalIm[k]) / d;
            int v = plan.order[k];
            if (Math.abs(x - vr[v]) > MOVED_VOLTS || Math.abs(y - vi[v]) > MOVED_VOLTS) {
                now.set(k);
                moved.set(v);
                vr[v] = x;
                vi[v] = y;
            }
        }
    }

    /**
     * Lets loads of constant power and current take what they want at the voltages that they have now.
     *
     * @return whether that came to rest
     */
    boolean settle(List<Loads.On> bent, Admittances y) {
        double[] takenRe = new double[bent.size()];
        double[] takenIm = new double[bent.size()];
        for (int turn = 0; turn < MOST_TURNS; turn++) {
            dirty.clear();
            redone.clear();
            for (int i = 0; i < bent.size(); i++) {
                Loads.On l = bent.get(i);
                int a = prepared.from[l.branch()];
                int b = prepared.to[l.branch()];
                if (turn == 0 && !moved.get(a) && !moved.get(b)) {
                    continue;
                }
                Complex across = new Complex(vr[a] - vr[b], vi[a] - vi[b]);
                Complex wanted = l.load().admittance(l.nominalVolts(), across.magnitude());
                Complex more = new Complex(y.re[l.branch()], y.im[l.branch()])
                        .minus(wanted)
                        .times(across);
                double dr = more.re() - takenRe[i];
                double di = more.im() - takenIm[i];
                if (Math.abs(dr) + Math.abs(di) > MOVED_AMPERES) {
                    takenRe[i] = more.re();
                    takenIm[i] = more.im();
                    inject(plan.position[a], dr, di);
                    inject(plan.position[b], -dr, -di);
                }
            }
            if (dirty.isEmpty()) {
                return true;
            }
            for (int k = dirty.nextSetBit(0); k >= 0; k = dirty.nextSetBit(k + 1)) {
                share(k);
            }
            backward();
        }
        return false;
    }

    private void inject(int k, double r, double i) {
        currentRe[k] += r;
        currentIm[k] += i;
        dirty.set(k);
    }

    private void share(int k) {
        redone.set(k);
        double d = totalRe[k] * totalRe[k] + totalIm[k] * totalIm[k];
        double cr = (currentRe[k] * totalRe[k] + currentIm[k] * totalIm[k]) / d;
        double ci = (currentIm[k] * totalRe[k] - currentRe[k] * totalIm[k]) / d;
        double dr = cr - shareRe[k];
        double di = ci - shareIm[k];
        shareRe[k] = cr;
        shareIm[k] = ci;
        for (int p = plan.start[k]; p < plan.start[k + 1]; p++) {
            currentRe[plan.row[p]] += re[p] * dr - im[p] * di;
            currentIm[plan.row[p]] += re[p] * di + im[p] * dr;
            dirty.set(plan.row[p]);
        }
    }
}
