package org.splicebook.loadflow;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.record.SourceSystem;

/** The admittance of every branch in one case, what is open, and the currents that sources drive. */
final class Admittances {
    final double[] re;
    final double[] im;
    /** Driven currents by node. */
    final double[] driveRe;

    final double[] driveIm;
    private final Circuit circuit;
    private final LoadCase state;
    private final Map<Integer, Double> measured = new HashMap<>();
    private final Map<Integer, Double> loose = new HashMap<>();
    private final double ideal = Tables.number("ideal", "ohms");
    private final double reactanceFactor;
    private final double celsius;
    private final boolean isIdeal;

    Admittances(Circuit circuit, LoadCase state) {
        this.circuit = circuit;
        this.state = state;
        int n = circuit.branches().size();
        re = new double[n];
        im = new double[n];
        driveRe = new double[circuit.nodes().size()];
        driveIm = new double[driveRe.length];
        Physics physics = state.physics();
        isIdeal = physics.ideal();
        celsius = physics.celsius();
        reactanceFactor = physics.reactance() && !isIdeal ? hertz(circuit, physics) / 60 : 0;
        measured.putAll(circuit.measured());
        state.ohms().forEach((name, ohms) -> measured.put(Objects.requireNonNull(circuit.findBranch(name)), ohms));
        for (Fault f : state.faults()) {
            if (f instanceof Fault.Loose l) {
                loose.merge(Objects.requireNonNull(circuit.findBranch(l.branch())), l.ohms(), Double::sum);
            }
        }
        branches();
        circuit.sources().forEach(this::source);
    }

    private Admittances(Admittances from, int branches) {
        circuit = from.circuit;
        state = from.state;
        re = Arrays.copyOf(from.re, branches);
        im = Arrays.copyOf(from.im, branches);
        driveRe = from.driveRe;
        driveIm = from.driveIm;
        reactanceFactor = from.reactanceFactor;
        celsius = from.celsius;
        isIdeal = from.isIdeal;
    }

    /** {@return a copy to change, for so many branches; those beyond are open} */
    Admittances copy(int branches) {
        return new Admittances(this, branches);
    }

    /** Puts so many ohms more into a branch; one that is open stays so. */
    void loosen(int branch, double ohms) {
        if (re[branch] != 0 || im[branch] != 0) {
            admit(
                    branch,
                    new Complex(re[branch], im[branch])
                            .inverse()
                            .plus(Complex.of(ohms))
                            .inverse());
        }
    }

    /** Closes a branch that something opens. */
    void close(int branch) {
        set(branch, circuit.branches().get(branch));
    }

    static double hertz(Circuit circuit, Physics physics) {
        if (physics.hertz() != null) {
            return physics.hertz();
        }
        return circuit.sources().stream()
                        .anyMatch(s -> s.system().poles().get(0).volts() > 200)
                ? 50
                : 60;
    }

    private void branches() {
        Positions positions = new Positions(circuit, state);
        List<Branch> all = circuit.branches();
        for (int i = 0; i < all.size(); i++) {
            Branch b = all.get(i);
            if (b.kind() == Branch.Kind.WINDING || !positions.isClosed(b) || positions.isBroken(i)) {
                continue;
            }
            if (b.kind() == Branch.Kind.LOAD) {
                if (b.ohms() > 0 && !isIdeal) {
                    re[i] = 1 / b.ohms();
                }
                continue;
            }
            set(i, b);
        }
    }

    private void set(int i, Branch b) {
        Double known = measured.get(i);
        double r;
        double x = 0;
        if (known != null) {
            r = known;
        } else if (isIdeal && b.kind() != Branch.Kind.FAULT && b.kind() != Branch.Kind.EARTH) {
            r = 0;
        } else {
            r = b.ohms() * (1 + b.perDegree() * (celsius - 75));
            x = b.reactance() * reactanceFactor;
        }
        Double more = loose.get(i);
        put(i, r + (more == null ? 0 : more), x);
    }

    private void put(int i, double r, double x) {
        double ohms = r == 0 && x == 0 ? ideal : r;
        double d = ohms * ohms + x * x;
        re[i] = ohms / d;
        im[i] = -x / d;
    }

    private void source(CircuitSource s) {
        SourceModel model = state.sources().get(s.name());
        if (model == null) {
            model = isIdeal ? SourceModel.IDEAL : s.model();
        }
        for (int i = 0; i <= s.windings().size(); i++) {
            boolean neutral = i == s.windings().size();
            String name =
                    s.name() + "." + (neutral ? "n" : s.system().poles().get(i).terminal());
            int branch = Objects.requireNonNull(circuit.findBranch(name));
            if (re[branch] != 0 && !measured.containsKey(branch)) {
                Double more = loose.get(branch);
                put(
                        branch,
                        model.drop().re() + (more == null ? 0 : more),
                        model.drop().im() * (state.physics().reactance() ? reactanceFactor : 0));
            }
        }
        windings(s, model);
    }

    /** Two windings on one core share part of their impedance; the third branch stands for that. */
    private void windings(CircuitSource s, SourceModel model) {
        Complex toNeutral = orIdeal(model.legToNeutral());
        Complex shared = s.mutual() < 0 || model.legToLeg().equals(Complex.ZERO)
                ? Complex.ZERO
                : toNeutral.minus(model.legToLeg().times(0.5));
        Complex determinant = toNeutral.times(toNeutral).minus(shared.times(shared));
        Complex own = toNeutral.over(determinant);
        Complex cross = shared.negated().over(determinant);
        for (int i = 0; i < s.windings().size(); i++) {
            admit(s.windingBranches().get(i), s.mutual() < 0 ? own : own.plus(cross));
            Complex drive = own.times(emf(s, i, model));
            if (s.mutual() >= 0) {
                drive = drive.plus(cross.times(emf(s, 1 - i, model)));
            }
            drive(s.windings().get(i), drive);
            drive(s.star(), drive.negated());
        }
        if (s.mutual() >= 0) {
            admit(s.mutual(), cross.negated());
        }
    }

    private static Complex emf(CircuitSource s, int pole, SourceModel model) {
        SourceSystem.Pole p = s.system().poles().get(pole);
        return Complex.polar(p.volts() * model.voltsFactor(), p.degrees());
    }

    private Complex orIdeal(Complex ohms) {
        return ohms.equals(Complex.ZERO) ? Complex.of(ideal) : ohms;
    }

    void admit(int branch, Complex y) {
        re[branch] = y.re();
        im[branch] = y.im();
    }

    private void drive(int node, Complex amperes) {
        driveRe[node] += amperes.re();
        driveIm[node] += amperes.im();
    }
}
