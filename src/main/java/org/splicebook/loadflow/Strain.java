package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Wire;

/**
 * What opens and which wires carry too much, over many positions of the levers and several load cases of one house. What does not hang
 * on the position is worked out once, and a load case that switches on the same loads as another is solved once.
 */
public final class Strain {
    /** By which share an admittance may still change: a hundredth of a milliampere in ten amperes. */
    private static final double SETTLED = 1e-6;

    private final Prepared prepared;
    private final Trips trips;
    private final List<LoadCase.Base> bases;
    private final List<List<Loads.On>> loads;
    private final List<Limited> wires = new ArrayList<>();

    /** A wire and what it may carry. */
    private record Limited(int branch, String wire, double amperes) {}

    /**
     * What one load case does to the house.
     *
     * @param base the load case
     * @param settled whether the currents could be computed
     * @param opening what may open, by name, the earliest first
     * @param over wires that carry more than they may
     */
    public record Told(LoadCase.Base base, boolean settled, List<String> opening, List<String> over) {
        public Told {
            opening = List.copyOf(opening);
            over = List.copyOf(over);
        }
    }

    private Strain(House house, List<LoadCase.Base> bases) {
        Circuit circuit = Circuit.of(house);
        this.prepared = new Prepared(circuit);
        this.trips = Trips.of(circuit);
        this.bases = List.copyOf(bases);
        this.loads = bases.stream().map(b -> Loads.in(circuit, LoadCase.of(b))).toList();
        for (Cable c : house.cables().values()) {
            for (Wire w : c.wires()) {
                double limit = w.metal() ? 0 : Conductor.limit(w);
                if (limit > 0) {
                    String name = c.name() + "." + w.name();
                    wires.add(new Limited(Objects.requireNonNull(circuit.findBranch(name)), name, limit));
                }
            }
        }
    }

    /** {@return what these load cases do to a house, to be asked for positions of its levers} */
    public static Strain of(House house, List<LoadCase.Base> bases) {
        return new Strain(house, bases);
    }

    /**
     * {@return what each load case does, in order}
     *
     * @param positions position by lever; as recorded where nothing is said
     */
    public List<Told> at(Map<String, String> positions) {
        LoadCase state = LoadCase.nothingOn();
        for (Map.Entry<String, String> e : positions.entrySet()) {
            state = state.lever(e.getKey(), e.getValue());
        }
        Admittances bare = new Admittances(prepared.circuit, state);
        Map<List<Loads.On>, Told> known = new LinkedHashMap<>();
        List<Told> all = new ArrayList<>();
        for (int i = 0; i < bases.size(); i++) {
            Told same = known.get(loads.get(i));
            Told told = same == null ? told(bases.get(i), loads.get(i), bare, state) : same;
            known.put(loads.get(i), told);
            all.add(new Told(bases.get(i), told.settled, told.opening, told.over));
        }
        return all;
    }

    private Told told(LoadCase.Base base, List<Loads.On> on, Admittances bare, LoadCase state) {
        Admittances y = bare.copy(bare.re.length);
        on.forEach(l -> y.admit(l.branch(), l.load().admittance(l.nominalVolts())));
        List<Loads.On> bent = on.stream().filter(l -> !l.load().isLinear()).toList();
        Solution s = new Solver(prepared, state, y, bent, SETTLED).solve();
        if (!s.settled()) {
            return new Told(base, false, List.of(), List.of());
        }
        List<String> over = new ArrayList<>();
        for (Limited w : wires) {
            if (s.isOver(w.branch, w.amperes)) {
                over.add(w.wire);
            }
        }
        return new Told(base, true, trips.driven(s).stream().map(Drive::unit).toList(), over);
    }
}
