package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The voltage across one pair of a load point, judged.
 *
 * @param point the load point
 * @param terminals the pair's branch: the load point's name, or {@code range[hot-1,hot-2]}
 * @param nominal nominal volts
 * @param volts what there is; null where it floats, or where no recorded source reaches it (which does not say that it is off)
 * @param pole the pole that feeds it, where there is one
 * @param branchDrop what is lost between the panel's buses and bars and here, as a share of nominal; null where that cannot be said
 * @param totalDrop what is lost between the source's no-load voltage and here, as a share of nominal; null where it floats
 */
public record VoltageAt(
        String point,
        String terminals,
        double nominal,
        @Nullable Double volts,
        @Nullable String pole,
        @Nullable Double branchDrop,
        @Nullable Double totalDrop) {
    /** {@return whether it is above what the supply should keep} */
    public boolean high() {
        return volts != null && volts > nominal * Tables.number("limits", "high");
    }

    /** {@return whether it is below what the supply should keep, and not off} */
    public boolean low() {
        return volts != null && volts < nominal * Tables.number("limits", "low") && volts > nominal * 0.02;
    }

    /** {@return whether more than 3 % is lost in the branch circuit or more than 5 % in all: advice of the code, not a rule of it} */
    public boolean dropsTooMuch() {
        return (branchDrop != null && branchDrop > Tables.number("limits", "drop-branch"))
                || (totalDrop != null && totalDrop > Tables.number("limits", "drop-total") && !high() && !off());
    }

    /** {@return whether there is next to no voltage across it} */
    public boolean off() {
        return volts != null && volts <= nominal * 0.02;
    }

    /** {@return the voltage at every pair of every load point} */
    public static List<VoltageAt> in(Solution s) {
        Trace trace = new Trace(s);
        List<VoltageAt> all = new ArrayList<>();
        for (LoadPoint p : s.circuit().loadPoints()) {
            for (LoadPoint.Pair pair : p.pairs()) {
                all.add(at(s, trace, p, pair));
            }
        }
        return all;
    }

    private static VoltageAt at(Solution s, Trace trace, LoadPoint p, LoadPoint.Pair pair) {
        Branch b = s.circuit().branches().get(pair.branch());
        Volts across = s.volts(b.from(), b.to());
        if (across.floats() || !across.fed()) {
            return new VoltageAt(p.name(), b.name(), pair.volts(), null, null, null, null);
        }
        double volts = across.magnitude();
        Trace.Home first = trace.home(b.from());
        Trace.Home second = trace.home(b.to());
        Integer near = busOrBar(s, first);
        Integer far = busOrBar(s, second);
        Double branchDrop = null;
        Double totalDrop = null;
        if (near != null && far != null && !first.poles().isEmpty() && !near.equals(far)) {
            branchDrop = (s.volts(near, far).magnitude() - volts) / pair.volts();
            totalDrop = (noLoad(s, pair) - volts) / pair.volts();
        }
        String pole = first.poles().isEmpty()
                ? null
                : s.circuit().branches().get(first.poles().get(0)).name();
        return new VoltageAt(p.name(), b.name(), pair.volts(), volts, pole, branchDrop, totalDrop);
    }

    private static @Nullable Integer busOrBar(Solution s, Trace.Home home) {
        if (home.poles().size() == 1) {
            return s.circuit().branches().get(home.poles().get(0)).from();
        }
        return home.poles().isEmpty() && !home.bars().isEmpty() ? home.bars().get(0) : null;
    }

    /** The voltage that the first source would have without load between the poles that the nominal voltage is meant between. */
    private static double noLoad(Solution s, LoadPoint.Pair pair) {
        CircuitSource source = s.circuit().sources().get(0);
        SourceModel said = s.state().sources().get(source.name());
        double factor = said == null ? 1 : said.voltsFactor();
        var poles = source.system().poles();
        boolean acrossLegs = pair.volts() > poles.get(0).volts() * 1.2 && poles.size() > 1;
        if (!acrossLegs) {
            return poles.get(0).volts() * factor;
        }
        Complex a = Complex.polar(poles.get(0).volts(), poles.get(0).degrees());
        Complex b = Complex.polar(poles.get(1).volts(), poles.get(1).degrees());
        return Objects.requireNonNull(a.minus(b)).magnitude() * factor;
    }
}
