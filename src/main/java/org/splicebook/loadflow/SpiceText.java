package org.splicebook.loadflow;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.splicebook.record.SourceSystem;

/**
 * A solved case as a netlist in the text form that general circuit simulators read, so that anyone may check a result elsewhere: an
 * alternating-current analysis at one frequency. Loads of constant power or current stand in it as the impedance that they came to.
 */
public final class SpiceText {
    /** Ties what floats to node 0, since simulators refuse what floats; what hangs on it has no voltage that means anything. */
    private static final double TIE_OHMS = 1e9;

    private final Solution s;
    private final Circuit circuit;
    private final double hertz;
    private final StringBuilder text = new StringBuilder();
    private int elements;
    private int inner;

    private SpiceText(Solution s) {
        this.s = s;
        this.circuit = s.circuit();
        this.hertz = Admittances.hertz(circuit, s.state().physics());
        this.inner = circuit.nodes().size();
    }

    /** {@return the netlist of a solved case} */
    public static String of(Solution solution) {
        return new SpiceText(solution).text();
    }

    private String text() {
        line("* " + circuit.house().id() + ": one state of its wiring, made by Splicebook");
        line("* Node 0 is earth. Node numbers:");
        List<String> nodes = circuit.nodes();
        for (int v = 1; v < nodes.size(); v++) {
            line("*   " + v + " = " + nodes.get(v));
        }
        for (int i = 0; i < circuit.branches().size(); i++) {
            Branch b = circuit.branches().get(i);
            if (b.kind() != Branch.Kind.WINDING && s.isClosed(i)) {
                line("* " + b.name());
                series(b.from(), b.to(), s.impedance(i).orElseThrow());
            }
        }
        circuit.sources().forEach(this::source);
        for (int v = 1; v < nodes.size(); v++) {
            if (s.standsForPart(v)) {
                line("* " + nodes.get(v) + " and what hangs on it floats");
                line("R" + ++elements + " " + v + " 0 " + number(TIE_OHMS));
            }
        }
        line(".ac lin 1 " + number(hertz) + " " + number(hertz));
        for (LoadPoint p : circuit.loadPoints()) {
            Branch b = circuit.branches().get(p.pairs().get(0).branch());
            Volts v = s.volts(b.from(), b.to());
            line("* " + p.name() + ": "
                    + (v.floats() ? "floats" : String.format(Locale.ROOT, "%.6f V", v.magnitude())));
            if (!v.floats()) {
                line(".print ac vm(" + b.from() + "," + b.to() + ")");
            }
        }
        line(".end");
        return text.toString();
    }

    private void series(int from, int to, Complex ohms) {
        if (ohms.im() == 0) {
            line("R" + ++elements + " " + from + " " + to + " " + number(ohms.re()));
            return;
        }
        int middle = inner++;
        line("R" + ++elements + " " + from + " " + middle + " " + number(ohms.re()));
        line("L" + elements + " " + middle + " " + to + " " + number(ohms.im() / (2 * Math.PI * hertz)));
    }

    /** Two windings on one core as a star of three arms, the arm to the neutral having what they share. */
    private void source(CircuitSource source) {
        SourceModel model = s.model(source);
        Complex own = model.legToNeutral();
        boolean coupled = source.mutual() >= 0 && !model.legToLeg().equals(Complex.ZERO);
        Complex shared = coupled ? own.minus(model.legToLeg().times(0.5)) : Complex.ZERO;
        int centre = source.star();
        if (coupled && !shared.equals(Complex.ZERO)) {
            centre = inner++;
            line("* " + source.name() + ": what its windings share");
            series(source.star(), centre, shared);
        }
        for (int i = 0; i < source.windings().size(); i++) {
            SourceSystem.Pole p = source.system().poles().get(i);
            int behind = inner++;
            line("* " + source.name() + "." + p.terminal());
            line("V" + ++elements + " " + behind + " " + centre + " ac " + number(p.volts() * model.voltsFactor()) + " "
                    + number(p.degrees()));
            Complex arm = own.minus(shared);
            series(
                    behind,
                    Objects.requireNonNull(source.windings().get(i)),
                    arm.equals(Complex.ZERO) ? Complex.of(Tables.number("ideal", "ohms")) : arm);
        }
    }

    private static String number(double x) {
        return Double.toString(x);
    }

    private void line(String s) {
        text.append(s).append('\n');
    }
}
