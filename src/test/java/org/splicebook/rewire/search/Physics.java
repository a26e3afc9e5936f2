package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.loadflow.Complex;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Wire;

/** What currents show of a house, with each load on by itself and with all on, in every position of each switch by itself. */
public final class Physics {
    /** Amperes below which a sum counts as none: less than a ground-fault unit opens at. */
    private static final double NONE = 0.004;

    private Physics() {}

    /** {@return what currents show to be wrong, in words: units that open, cables whose currents do not sum to nothing} */
    public static Map<String, Double> wrong(House house) {
        LoadFlow flow = LoadFlow.of(house);
        Map<String, Double> all = new TreeMap<>();
        List<LoadCase> cases = new ArrayList<>(List.of(
                LoadCase.of(LoadCase.Base.TYPICAL),
                LoadCase.of(LoadCase.Base.ALL_ON),
                LoadCase.of(LoadCase.Base.HEATERS)));
        for (LoadPoint p : flow.circuit().loadPoints()) {
            LoadCase one = LoadCase.nothingOn();
            for (LoadPoint.Pair pair : p.pairs()) {
                one = one.load(flow.circuit().branches().get(pair.branch()).name(), Load.watts(600));
            }
            cases.add(one);
        }
        for (LoadCase c : cases) {
            for (LoadCase at : positions(house, c)) {
                look(house, flow.solve(at).get(), all);
            }
        }
        return all;
    }

    private static List<LoadCase> positions(House house, LoadCase c) {
        List<LoadCase> all = new ArrayList<>(List.of(c));
        LoadCase second = c;
        for (var b : house.boxes().values()) {
            for (var d : b.devices().values()) {
                for (var l : d.kind().levers()) {
                    String name = d.kind().levers().size() == 1 ? d.name() : d.name() + "." + l.name();
                    second = second.lever(name, l.positions().get(l.positions().size() - 1));
                }
            }
        }
        all.add(second);
        return all;
    }

    private static void look(House house, Solution s, Map<String, Double> all) {
        Trips.in(s).forEach(d -> all.merge(d.unit() + " opens", d.amperes(), Math::max));
        s.residuals().stream()
                .filter(r -> r.amperes() > NONE)
                .forEach(r -> all.merge(r.sensor().name() + " sees a residual", r.amperes(), Math::max));
        Map<String, Complex> wires = new HashMap<>();
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            wires.put(s.circuit().branches().get(i).name(), s.amperes(i));
        }
        for (Cable c : house.cables().values()) {
            Complex sum = Complex.ZERO;
            for (Wire w : c.wires()) {
                sum = sum.plus(wires.getOrDefault(c.name() + "." + w.name(), Complex.ZERO));
            }
            if (c.kind().encloses() && sum.magnitude() > NONE) {
                all.merge(c.name() + " carries a sum", sum.magnitude(), Math::max);
            }
        }
    }
}
