package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One state of a house solved again and again with this and that wrong: the circuit, its order of elimination and its admittances are
 * worked out once, each variation changes a few of them. Immutable; safe for use by several threads.
 */
public final class Variations {
    /** By which share loads of constant power may still change: far below what a meter shows. */
    private static final double SETTLED = 1e-3;

    private final LoadFlow flow;
    private final Prepared prepared;
    private final LoadCase state;
    private final Admittances base;
    private final List<Loads.On> bent;
    private final Parts parts;
    private final Worked worked;
    private final Trips trips;
    private final Map<String, List<Integer>> byGate;
    private final Map<List<Integer>, Integer> touching;

    private Variations(
            LoadFlow flow,
            Prepared prepared,
            LoadCase state,
            Trips trips,
            Map<String, List<Integer>> byGate,
            Map<List<Integer>, Integer> touching) {
        this.flow = flow;
        this.prepared = prepared;
        this.state = state;
        this.trips = trips;
        this.byGate = byGate;
        this.touching = touching;
        Solution sound = flow.solve(state).get();
        this.base = sound.admittances().copy(prepared.circuit.branches().size());
        this.bent = Solver.bent(prepared.circuit, state);
        this.parts = Parts.of(prepared, base);
        this.worked = new Worked(prepared, base, parts, Solver.TIE);
    }

    /**
     * {@return the variations of a state}
     *
     * @param touches which nodes may come to touch in a variation; poles that may land on another leg are added by themselves
     * @throws org.splicebook.problem.ProblemException when the state names something that is not there
     */
    public static Variations of(LoadFlow flow, LoadCase state, Collection<Fault> touches) {
        Circuit circuit = flow.solve(state).get().circuit();
        Set<List<Integer>> pairs = new LinkedHashSet<>();
        for (Fault f : touches) {
            if (f instanceof Fault.Touch t) {
                pairs.add(pair(node(circuit, t.from()), node(circuit, t.to())));
            } else if (f instanceof Fault.OnLeg l) {
                int pole = Objects.requireNonNull(circuit.findBranch(l.pole()));
                pairs.add(pair(
                        node(circuit, l.bus()), circuit.branches().get(pole).to()));
            }
        }
        Map<List<Integer>, Integer> touching = new HashMap<>();
        List<Branch> added = new ArrayList<>();
        int n = circuit.branches().size();
        for (List<Integer> p : pairs) {
            touching.put(p, n + added.size());
            added.add(new Branch("touch-" + (added.size() + 1), Branch.Kind.FAULT, p.get(0), p.get(1), null, 0, 0, 0));
        }
        Circuit all = circuit.with(Map.of(), added);
        Map<String, List<Integer>> byGate = new LinkedHashMap<>();
        for (int i = 0; i < n; i++) {
            Gate g = all.branches().get(i).gate();
            if (g != null && !g.isLever()) {
                byGate.computeIfAbsent(g.thing(), k -> new ArrayList<>()).add(i);
                if (g.part() != null && !g.part().equals(g.thing())) {
                    byGate.computeIfAbsent(g.part(), k -> new ArrayList<>()).add(i);
                }
            }
        }
        return new Variations(flow, new Prepared(all), state, Trips.of(all), byGate, touching);
    }

    /** {@return the variations of another state that has the same faults in it} */
    public Variations in(LoadCase other) {
        return new Variations(flow, prepared, other, trips, byGate, touching);
    }

    /** {@return the state that is varied} */
    public LoadCase state() {
        return state;
    }

    /** {@return the circuit that is varied} */
    public Circuit circuit() {
        return prepared.circuit;
    }

    /**
     * {@return the state with this wrong and that open}
     *
     * @param faults faults; what touches has to be among the touches that were said
     * @param opened breakers and protective devices that are open
     */
    public Varied with(List<Fault> faults, Collection<String> opened) {
        Change y = new Change(base.copy(base.re.length));
        for (Fault f : faults) {
            put(f, y);
        }
        for (String unit : opened) {
            byGate.getOrDefault(unit, List.of()).forEach(b -> y.admit(b, Complex.ZERO));
        }
        if (!y.rerouted.isEmpty()) {
            return anew(prepared.rerouted(y.rerouted), y.all);
        }
        Reworked r = new Reworked(worked, prepared);
        boolean isJoinedAlike = true;
        for (int i : y.touched) {
            r.add(i, y.all.re[i] - base.re[i], y.all.im[i] - base.im[i]);
            boolean conducts = y.all.re[i] != 0 || y.all.im[i] != 0;
            boolean did = base.re[i] != 0 || base.im[i] != 0;
            isJoinedAlike &= conducts == did || (conducts && parts.of(prepared.from[i]) == parts.of(prepared.to[i]));
        }
        Parts now = isJoinedAlike ? parts : Parts.of(prepared, y.all);
        if (now != parts) {
            r.tie(parts, now);
        }
        r.solve();
        if (!r.settle(bent, y.all)) {
            return anew(prepared, y.all);
        }
        return new Varied(new Solution(circuit(), state, y.all, now, r.vr, r.vi, true), r.moved, parts);
    }

    private Varied anew(Prepared as, Admittances y) {
        return new Varied(new Solver(as, state, y, bent, SETTLED).solve(), null, parts);
    }

    /** Admittances that are being changed, which of them, and poles that hang on another bus. */
    private static final class Change {
        private final Admittances all;
        private final Set<Integer> touched = new LinkedHashSet<>();
        private final Map<Integer, Branch> rerouted = new HashMap<>();

        private Change(Admittances all) {
            this.all = all;
        }

        private void admit(int branch, Complex y) {
            all.admit(branch, y);
            touched.add(branch);
        }

        private boolean isOpen(int branch) {
            return all.re[branch] == 0 && all.im[branch] == 0;
        }
    }

    /** A variation, and where it is as the state is without it. */
    public static final class Varied {
        private final Solution solution;
        private final @Nullable BitSet moved;
        private final Parts before;

        private Varied(Solution solution, @Nullable BitSet moved, Parts before) {
            this.solution = solution;
            this.moved = moved;
            this.before = before;
        }

        /** {@return the solution} */
        public Solution solution() {
            return solution;
        }

        /** {@return whether a node has just the voltage, to all others that say so, that it has without the variation} */
        public boolean isAsBefore(int node) {
            return moved != null && !moved.get(node) && solution.isPartAs(before, node);
        }
    }

    /** {@return what every unit that may open is driven by in a variation, the earliest first} */
    public List<Drive> driven(Solution variation) {
        return trips.driven(variation);
    }

    private void put(Fault f, Change y) {
        if (f instanceof Fault.Open o) {
            y.admit(branch(o.branch()), Complex.ZERO);
        } else if (f instanceof Fault.OpenJoint o) {
            circuit().armsOf(node(circuit(), o.joint())).forEach(b -> y.admit(b, Complex.ZERO));
        } else if (f instanceof Fault.Loose l) {
            y.all.loosen(branch(l.branch()), l.ohms());
            y.touched.add(branch(l.branch()));
        } else if (f instanceof Fault.Touch t) {
            Integer b = touching.get(pair(node(circuit(), t.from()), node(circuit(), t.to())));
            y.admit(Objects.requireNonNull(b, "not said to touch"), Complex.of(1 / Math.max(t.ohms(), 1e-6)));
        } else if (f instanceof Fault.OnLeg l) {
            int pole = branch(l.pole());
            Branch b = circuit().branches().get(pole);
            y.rerouted.put(
                    pole,
                    new Branch(
                            b.name(),
                            b.kind(),
                            node(circuit(), l.bus()),
                            b.to(),
                            b.gate(),
                            b.ohms(),
                            b.reactance(),
                            b.perDegree()));
        } else if (f instanceof Fault.Stuck s) {
            int b = branch(s.contact());
            if (y.isOpen(b)) {
                y.admit(b, Complex.of(1 / circuit().branches().get(b).ohms()));
            }
        }
    }

    private int branch(String name) {
        return Objects.requireNonNull(circuit().findBranch(name), name);
    }

    private static int node(Circuit circuit, String name) {
        return Objects.requireNonNull(circuit.findNode(name), name);
    }

    private static List<Integer> pair(int a, int b) {
        return a < b ? List.of(a, b) : List.of(b, a);
    }
}
