package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;

/** What happens in one case: volts between any two nodes, amperes in every branch, residuals. Immutable. */
public final class Solution {
    private final Circuit circuit;
    private final LoadCase state;
    private final Admittances y;
    private final Parts parts;
    private final double[] vr;
    private final double[] vi;
    private final boolean settled;

    Solution(Circuit circuit, LoadCase state, Admittances y, Parts parts, double[] vr, double[] vi, boolean settled) {
        this.circuit = circuit;
        this.state = state;
        this.y = y;
        this.parts = parts;
        this.vr = vr;
        this.vi = vi;
        this.settled = settled;
    }

    /** {@return the circuit that was solved, faults in it} */
    public Circuit circuit() {
        return circuit;
    }

    /** {@return the case} */
    public LoadCase state() {
        return state;
    }

    /** {@return whether loads of constant power or current came to rest; where not, the figures are not to be trusted} */
    public boolean settled() {
        return settled;
    }

    /**
     * {@return the voltage of one node to another}
     *
     * @throws IllegalArgumentException when there is no such node
     */
    public Volts volts(String from, String to) {
        return volts(node(from), node(to));
    }

    /** {@return the voltage of one node to another, by number} */
    public Volts volts(int from, int to) {
        if (parts.of(from) != parts.of(to)) {
            return Volts.FLOATS;
        }
        return new Volts(new Complex(vr[from] - vr[to], vi[from] - vi[to]), parts.isFed(from));
    }

    /** {@return whether a recorded source reaches the node, through loads too} */
    public boolean isFed(String node) {
        return parts.isFed(node(node));
    }

    /** {@return whether nothing joins the node to earth: its voltage to ground is not known} */
    public boolean floats(String node) {
        return parts.of(node(node)) != parts.of(node(Circuit.EARTH));
    }

    /**
     * {@return the amperes in a branch, from its first node to its second}
     *
     * @throws IllegalArgumentException when there is no such branch
     */
    public Complex amperes(String branch) {
        return amperes(branchNumber(branch));
    }

    /** {@return the amperes in a branch, by number} */
    public Complex amperes(int branch) {
        Branch b = circuit.branches().get(branch);
        double dr = vr[b.from()] - vr[b.to()];
        double di = vi[b.from()] - vi[b.to()];
        return new Complex(dr * y.re[branch] - di * y.im[branch], dr * y.im[branch] + di * y.re[branch]);
    }

    /** {@return whether a branch carries more than so many amperes} */
    boolean isOver(int branch, double amperes) {
        Branch b = circuit.branches().get(branch);
        double dr = vr[b.from()] - vr[b.to()];
        double di = vi[b.from()] - vi[b.to()];
        double square = y.re[branch] * y.re[branch] + y.im[branch] * y.im[branch];
        return (dr * dr + di * di) * square > amperes * amperes;
    }

    /** {@return the watts that a branch turns into heat or work} */
    public double watts(String branch) {
        return watts(branchNumber(branch));
    }

    /** {@return the watts that a branch turns into heat or work, by number} */
    public double watts(int branch) {
        Branch b = circuit.branches().get(branch);
        double dr = vr[b.from()] - vr[b.to()];
        double di = vi[b.from()] - vi[b.to()];
        return (dr * dr + di * di) * y.re[branch];
    }

    /** {@return the impedance of a branch as it was in this case, in ohms; empty where it was open} */
    public Optional<Complex> impedance(int branch) {
        return isClosed(branch) ? Optional.of(new Complex(y.re[branch], y.im[branch]).inverse()) : Optional.empty();
    }

    /** {@return what the figures hang on: the most general first} */
    public List<Assumption> assumptions() {
        return Assumptions.of(this);
    }

    /** {@return the voltage of a node to what its part of the circuit is tied at; empty where that is another part than the one of a node} */
    public Optional<Complex> phasor(int node, int inPartOf) {
        return parts.of(node) == parts.of(inPartOf) ? Optional.of(new Complex(vr[node], vi[node])) : Optional.empty();
    }

    boolean isPartAs(Parts before, int node) {
        return parts == before || (parts.of(node) == before.of(node) && parts.isFed(node) == before.isFed(node));
    }

    /** {@return the admittances as they came to rest} */
    Admittances admittances() {
        return y;
    }

    /** {@return the loads that were on} */
    List<Loads.On> loads() {
        return Loads.in(circuit, state);
    }

    /** {@return whether a branch conducted} */
    public boolean isClosed(int branch) {
        return y.re[branch] != 0 || y.im[branch] != 0;
    }

    /** {@return whether the node is the one that stands for its part of the circuit} */
    boolean standsForPart(int node) {
        return parts.stands(node);
    }

    /** {@return what stood behind a source} */
    SourceModel model(CircuitSource source) {
        SourceModel said = state.sources().get(source.name());
        return said != null ? said : state.physics().ideal() ? SourceModel.IDEAL : source.model();
    }

    /** {@return the watts that all sources send out of their windings} */
    public double wattsIn() {
        double watts = 0;
        for (CircuitSource s : circuit.sources()) {
            for (int i = 0; i < s.windings().size(); i++) {
                Complex amperes =
                        amperes(s.name() + "." + s.system().poles().get(i).terminal());
                Complex volts = volts(s.windings().get(i), s.star()).known();
                watts += volts.times(amperes.conjugate()).re();
            }
        }
        return watts;
    }

    /** What a protective device sees. */
    public record Residual(Sensor sensor, double amperes) {}

    /** {@return what every protective device sees: the sum of the currents through its sensor} */
    public List<Residual> residuals() {
        return residuals(circuit, this::amperes);
    }

    static List<Residual> residuals(Circuit circuit, IntFunction<Complex> amperes) {
        List<Residual> all = new ArrayList<>();
        for (Sensor s : circuit.sensors()) {
            Complex sum = Complex.ZERO;
            for (int b : s.branches()) {
                sum = sum.plus(amperes.apply(b));
            }
            all.add(new Residual(s, sum.magnitude()));
        }
        return all;
    }

    /**
     * {@return what one protective device sees, in amperes}
     *
     * @param sensor {@code bath-gf}, {@code main.8}
     * @throws IllegalArgumentException when there is no such device
     */
    public double residual(String sensor) {
        return residuals().stream()
                .filter(r -> r.sensor().name().equals(sensor))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no protective device " + sensor))
                .amperes();
    }

    /**
     * What there is at one load point.
     *
     * @param point the load point
     * @param across the voltage across each pair, first pair first
     * @param firstToGround the first terminal to the ground terminal; null where it has none
     * @param secondToGround the second terminal of the first pair to the ground terminal; null where it has none
     * @param amperes the current of the load across each pair
     */
    public record AtPoint(
            LoadPoint point,
            List<Volts> across,
            @Nullable Volts firstToGround,
            @Nullable Volts secondToGround,
            List<Complex> amperes) {}

    /** {@return what there is at each load point} */
    public List<AtPoint> points() {
        return circuit.loadPoints().stream().map(this::at).toList();
    }

    /** {@return what there is at a load point} */
    public AtPoint at(LoadPoint p) {
        List<Volts> across = new ArrayList<>();
        List<Complex> amperes = new ArrayList<>();
        for (LoadPoint.Pair pair : p.pairs()) {
            Branch b = circuit.branches().get(pair.branch());
            across.add(volts(b.from(), b.to()));
            amperes.add(amperes(pair.branch()));
        }
        Branch first = circuit.branches().get(p.pairs().get(0).branch());
        boolean grounded = p.ground() >= 0;
        return new AtPoint(
                p,
                List.copyOf(across),
                grounded ? volts(first.from(), p.ground()) : null,
                grounded ? volts(first.to(), p.ground()) : null,
                List.copyOf(amperes));
    }

    private int node(String name) {
        Integer n = circuit.findNode(name);
        if (n == null) {
            throw new IllegalArgumentException("no node " + name);
        }
        return n;
    }

    private int branchNumber(String name) {
        Integer n = circuit.findBranch(name);
        if (n == null) {
            throw new IllegalArgumentException("no branch " + name);
        }
        return n;
    }
}
