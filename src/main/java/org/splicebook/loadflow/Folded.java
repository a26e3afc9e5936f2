package org.splicebook.loadflow;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A circuit with all that no case changes folded away once. What is left, the ends of loads, of what levers open and of windings, is small;
 * a case is worked out there, and the voltages of the rest are filled in when it has come to rest.
 *
 * <p>No node is tied to the reference: the last of each part that hangs together has nothing left on it then and stays there.
 *
 * <p>One of these holds the working space of one thread.
 */
final class Folded {
    private static final int MOST_TURNS = 40;

    private final Prepared prepared;
    private final StarMesh mesh;
    private final int first;
    private final int firstEntry;
    /** Entries among what is left, with nothing on that a case may change. */
    private final double[] keptRe;

    private final double[] keptIm;
    private final double[] driveRe;
    private final double[] driveIm;
    /** Where the ends of each branch stand in the elimination. */
    private final int[] from;

    private final int[] to;
    /** Volts by position. */
    private final double[] vr;

    private final double[] vi;

    /**
     * {@return a circuit folded}
     *
     * @param changing the branches that a case may change
     * @param y what conducts in every case, those that change being open
     */
    static Folded of(Circuit circuit, IntStream changing, Admittances y) {
        boolean[] last = new boolean[circuit.nodes().size()];
        changing.forEach(i -> {
            last[circuit.branches().get(i).from()] = true;
            last[circuit.branches().get(i).to()] = true;
        });
        for (CircuitSource s : circuit.sources()) {
            last[s.star()] = true;
            s.windings().forEach(w -> last[w] = true);
        }
        return new Folded(Prepared.last(circuit, last), y);
    }

    private Folded(Prepared prepared, Admittances y) {
        this.prepared = prepared;
        Elimination plan = prepared.plan;
        mesh = new StarMesh(plan);
        first = plan.first;
        firstEntry = plan.start[first];
        int n = plan.order.length;
        from = new int[y.re.length];
        to = new int[y.re.length];
        for (int i = 0; i < y.re.length; i++) {
            from[i] = plan.position[prepared.from[i]];
            to[i] = plan.position[prepared.to[i]];
            add(i, y.re[i], y.im[i]);
        }
        mesh.factor(0, first);
        keptRe = Arrays.copyOfRange(mesh.re, firstEntry, mesh.re.length);
        keptIm = Arrays.copyOfRange(mesh.im, firstEntry, mesh.im.length);
        driveRe = new double[n];
        driveIm = new double[n];
        for (int v = 0; v < n; v++) {
            driveRe[plan.position[v]] = y.driveRe[v];
            driveIm[plan.position[v]] = y.driveIm[v];
        }
        vr = new double[n];
        vi = new double[n];
    }

    /** {@return the circuit in the order that it is folded in} */
    Prepared prepared() {
        return prepared;
    }

    /** Forgets the case before. */
    void begin() {
        System.arraycopy(keptRe, 0, mesh.re, firstEntry, keptRe.length);
        System.arraycopy(keptIm, 0, mesh.im, firstEntry, keptIm.length);
    }

    /** Puts an admittance across a branch. */
    void add(int branch, double re, double im) {
        int e = prepared.entry[branch];
        if (e >= 0) {
            mesh.re[e] += re;
            mesh.im[e] += im;
        }
    }

    /** Loads across branches, each with its admittance at its nominal voltage. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Across(int[] branch, double[] re, double[] im, double[] nominalVolts, Load[] loads) {
        static Across of(List<Loads.On> on) {
            List<Complex> nominal =
                    on.stream().map(l -> l.load().admittance(l.nominalVolts())).toList();
            return new Across(
                    on.stream().mapToInt(Loads.On::branch).toArray(),
                    nominal.stream().mapToDouble(Complex::re).toArray(),
                    nominal.stream().mapToDouble(Complex::im).toArray(),
                    on.stream().mapToDouble(Loads.On::nominalVolts).toArray(),
                    on.stream().map(Loads.On::load).toArray(Load[]::new));
        }
    }

    /** Puts loads across their branches. */
    void add(Across loads) {
        for (int i = 0; i < loads.branch.length; i++) {
            add(loads.branch[i], loads.re[i], loads.im[i]);
        }
    }

    /**
     * Works out the voltages of what is left, then of all.
     *
     * @param bent loads, put across already, whose current is not in proportion to their voltage
     * @param settled by which share the loads' admittances may still change
     * @return whether the loads came to rest; where not, the voltages are of no use
     */
    boolean solve(Across bent, double settled) {
        int n = vr.length;
        mesh.factor(first, n);
        drive();
        mesh.solve(first, vr, vi);
        if (!settle(bent, settled)) {
            return false;
        }
        Arrays.fill(vr, 0, first, 0);
        Arrays.fill(vi, 0, first, 0);
        mesh.back(0, first, vr, vi);
        return true;
    }

    private void drive() {
        System.arraycopy(driveRe, first, vr, first, vr.length - first);
        System.arraycopy(driveIm, first, vi, first, vi.length - first);
    }

    /** The circuit stays as it is, and what a load takes more or less is a current of its own. */
    private boolean settle(Across bent, double settled) {
        int many = bent.branch.length;
        double[] factor = new double[many];
        double[] lessRe = new double[many];
        double[] lessIm = new double[many];
        double change = many == 0 ? 0 : Double.POSITIVE_INFINITY;
        for (int turn = 0; turn <= MOST_TURNS; turn++) {
            if (turn > 0) {
                drive();
                for (int i = 0; i < many; i++) {
                    int a = from[bent.branch[i]];
                    int b = to[bent.branch[i]];
                    vr[a] += lessRe[i];
                    vi[a] += lessIm[i];
                    vr[b] -= lessRe[i];
                    vi[b] -= lessIm[i];
                }
                mesh.solve(first, vr, vi);
                change = 0;
            }
            for (int i = 0; i < many; i++) {
                int a = from[bent.branch[i]];
                int b = to[bent.branch[i]];
                double dr = vr[a] - vr[b];
                double di = vi[a] - vi[b];
                double now = bent.loads[i].factor(Math.sqrt(dr * dr + di * di) / bent.nominalVolts[i]);
                if (turn > 0) {
                    change = Math.max(change, Math.abs(now - factor[i]) / now);
                }
                factor[i] = now;
                double less = 1 - now;
                lessRe[i] = less * (bent.re[i] * dr - bent.im[i] * di);
                lessIm[i] = less * (bent.re[i] * di + bent.im[i] * dr);
            }
            if (change < settled) {
                return true;
            }
        }
        return false;
    }

    /** {@return the square of the volts across a branch} */
    double squareAcross(int branch) {
        double dr = vr[from[branch]] - vr[to[branch]];
        double di = vi[from[branch]] - vi[to[branch]];
        return dr * dr + di * di;
    }

    /** {@return the amperes in a branch of that admittance} */
    Complex amperes(int branch, double re, double im) {
        double dr = vr[from[branch]] - vr[to[branch]];
        double di = vi[from[branch]] - vi[to[branch]];
        return new Complex(dr * re - di * im, dr * im + di * re);
    }
}
