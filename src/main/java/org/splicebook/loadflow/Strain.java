package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Wire;

/**
 * What opens and which wires carry too much, over many positions of the levers and several load cases of one house. What does not hang
 * on the position is worked out once, a load case that switches on the same loads as another is solved once, and so are positions that
 * close the same contacts. For one thread.
 */
public final class Strain {
    /** By which share an admittance may still change: a hundredth of a milliampere in ten amperes. */
    private static final double SETTLED = 1e-6;

    private final Circuit circuit;
    private final Trips trips;
    private final List<Lit> cases = new ArrayList<>();
    private final List<LoadCase.Base> bases;
    /** The case that each base is, by number. */
    private final List<Integer> caseOf = new ArrayList<>();

    private final List<Limited> wires = new ArrayList<>();
    /** What conducts; contacts that levers move as they were last asked for. */
    private final Admittances y;

    private final int[] contacts;
    private final Folded folded;
    private final Map<BitSet, List<Told>> known = new HashMap<>();

    /** A wire and what it may carry. */
    private record Limited(int branch, String wire, double amperes) {}

    /** Loads that are on, all of them and those whose current is not in proportion to their voltage. */
    private record Lit(List<Loads.On> on, Folded.Across all, Folded.Across bent) {
        static Lit of(List<Loads.On> on) {
            return new Lit(
                    on,
                    Folded.Across.of(on),
                    Folded.Across.of(
                            on.stream().filter(l -> !l.load().isLinear()).toList()));
        }
    }

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
        this.circuit = Circuit.of(house);
        this.trips = Trips.of(circuit);
        this.bases = List.copyOf(bases);
        List<List<Loads.On>> loads = new ArrayList<>();
        for (LoadCase.Base b : bases) {
            List<Loads.On> on = Loads.in(circuit, LoadCase.of(b));
            int same = loads.indexOf(on);
            caseOf.add(same < 0 ? loads.size() : same);
            if (same < 0) {
                loads.add(on);
                cases.add(Lit.of(on));
            }
        }
        this.contacts = IntStream.range(0, circuit.branches().size())
                .filter(i -> isMoved(circuit.branches().get(i)))
                .toArray();
        this.y = new Admittances(circuit, LoadCase.nothingOn());
        for (int c : contacts) {
            y.admit(c, Complex.ZERO);
        }
        IntStream on = loads.stream().flatMap(List::stream).mapToInt(Loads.On::branch);
        this.folded = Folded.of(circuit, IntStream.concat(Arrays.stream(contacts), on), y);
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

    private static boolean isMoved(Branch b) {
        return b.gate() != null && b.gate().isLever();
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
        BitSet closed = new BitSet();
        for (int c : contacts) {
            Gate g = Objects.requireNonNull(circuit.branches().get(c).gate());
            String position = positions.get(g.thing());
            if (g.positions()
                    .contains(
                            position == null
                                    ? Objects.requireNonNull(circuit.levers().get(g.thing()))
                                            .get(0)
                                    : position)) {
                closed.set(c);
            }
        }
        return known.computeIfAbsent(closed, k -> told(k, positions));
    }

    private List<Told> told(BitSet closed, Map<String, String> positions) {
        for (int c : contacts) {
            if (closed.get(c)) {
                y.close(c);
            } else {
                y.admit(c, Complex.ZERO);
            }
        }
        List<Told> each = new ArrayList<>();
        List<Told> all = new ArrayList<>();
        for (int i = 0; i < bases.size(); i++) {
            int at = caseOf.get(i);
            if (at == each.size()) {
                each.add(told(bases.get(i), cases.get(at), positions));
            }
            Told t = each.get(at);
            all.add(new Told(bases.get(i), t.settled, t.opening, t.over));
        }
        return all;
    }

    private Told told(LoadCase.Base base, Lit lit, Map<String, String> positions) {
        folded.begin();
        for (int c : contacts) {
            folded.add(c, y.re[c], y.im[c]);
        }
        folded.add(lit.all);
        if (!folded.solve(lit.bent, SETTLED)) {
            return slowly(base, lit, positions);
        }
        List<String> over = new ArrayList<>();
        for (Limited w : wires) {
            double square = y.re[w.branch] * y.re[w.branch] + y.im[w.branch] * y.im[w.branch];
            if (folded.squareAcross(w.branch) * square > w.amperes * w.amperes) {
                over.add(w.wire);
            }
        }
        List<Drive> driven = trips.driven(circuit, b -> folded.amperes(b, y.re[b], y.im[b]));
        return new Told(base, true, driven.stream().map(Drive::unit).toList(), over);
    }

    /** For loads that come to rest only by new admittances each time. */
    private Told slowly(LoadCase.Base base, Lit lit, Map<String, String> positions) {
        LoadCase state = LoadCase.nothingOn();
        for (Map.Entry<String, String> e : positions.entrySet()) {
            state = state.lever(e.getKey(), e.getValue());
        }
        Admittances all = y.copy(y.re.length);
        lit.on.forEach(l -> all.admit(l.branch(), l.load().admittance(l.nominalVolts())));
        List<Loads.On> bent = lit.on.stream().filter(l -> !l.load().isLinear()).toList();
        Solution s = new Solver(folded.prepared(), state, all, bent, SETTLED).solve();
        if (!s.settled()) {
            return new Told(base, false, List.of(), List.of());
        }
        List<String> over = wires.stream()
                .filter(w -> s.isOver(w.branch, w.amperes))
                .map(Limited::wire)
                .toList();
        return new Told(base, true, trips.driven(s).stream().map(Drive::unit).toList(), over);
    }
}
