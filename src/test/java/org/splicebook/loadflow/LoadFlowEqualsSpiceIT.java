package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.oracle.Measured;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.oracle.SpiceDeck;
import org.splicebook.record.House;

/** Holds the load flow to a general circuit simulator, on random houses in random states with faults. */
class LoadFlowEqualsSpiceIT {
    private static final int HOUSES = Integer.getInteger("splicebook.spice.houses", 400);
    /** Of the source's volts, and of the largest current. */
    private static final double CLOSE = 1e-6;
    /** Ohms from every node to earth. What moves between a hundredth of it and the whole floats, or hangs on electronics only. */
    private static final double SHUNT = 1e12;

    @TempDir
    static Path folder;

    @BeforeAll
    static void ngspiceIsThere() {
        boolean there = Ngspice.isThere();
        String how = "ngspice is missing: apt-get install ngspice";
        assertThat(there || !"true".equals(System.getenv("CI"))).as(how).isTrue();
        Assumptions.assumeTrue(there, how);
    }

    @Test
    void everyNodeAndEveryCurrentIsAsSimulated() {
        List<String> wrong = new ArrayList<>();
        int faults = 0;
        int floating = 0;
        int weak = 0;
        int compared = 0;
        for (long seed = 0; seed < HOUSES; seed++) {
            Compared c = new Compared(seed);
            faults += c.state.faults().size();
            floating += c.floating;
            weak += c.weak;
            compared += c.nodes;
            if (!c.wrong.isEmpty()) {
                wrong.add("seed " + seed + " " + c.state.faults() + ": "
                        + c.wrong.subList(0, Math.min(4, c.wrong.size())));
            }
        }
        System.out.println(HOUSES + " houses, " + faults + " faults, " + compared + " nodes equal, " + floating
                + " float, " + weak + " hang on electronics only");
        assertThat(wrong).isEmpty();
        assertThat(faults).isGreaterThan(HOUSES);
        assertThat(weak).isLessThan(compared / 100);
    }

    /** One house in one state, solved both ways. */
    private static final class Compared {
        private final LoadCase state;
        private final List<String> wrong = new ArrayList<>();
        private int floating;
        private int weak;
        private int nodes;

        Compared(long seed) {
            House house = Measured.house(RandomHouses.house(seed, Shape.of(seed)), seed);
            LoadFlow flow = LoadFlow.of(house);
            state = RandomCases.linear(flow.circuit(), seed, (int) (seed % 5));
            Solution ours = flow.solve(state).get();
            SpiceDeck deck = new SpiceDeck(house, state);
            Ngspice ngspice = new Ngspice(folder);
            Map<String, Complex> theirs = ngspice.volts(deck.text(SHUNT));
            Map<String, Complex> other = ngspice.volts(deck.text(SHUNT / 100));
            double source =
                    house.sources().get("service").system().poles().get(0).volts();
            Set<String> tied = new HashSet<>(deck.tied());
            nodes(ours, deck, theirs, other, source, tied);
            currents(ours, deck, theirs, tied);
        }

        private void nodes(
                Solution ours,
                SpiceDeck deck,
                Map<String, Complex> theirs,
                Map<String, Complex> other,
                double source,
                Set<String> tied) {
            for (Map.Entry<String, String> e : deck.nodes().entrySet()) {
                String name = e.getKey();
                if (ours.circuit().findNode(name) == null) {
                    wrong.add(name + " is not in the circuit");
                    continue;
                }
                boolean floats = !tied.contains(name);
                if (ours.floats(name) != floats) {
                    wrong.add(name + (floats ? " floats" : " does not float"));
                }
                Complex want = theirs.get(deck.node(e.getValue()));
                Complex moved = other.get(deck.node(e.getValue()));
                if (want == null || moved == null) {
                    if (!floats) {
                        wrong.add(name + " was not simulated");
                    }
                    continue;
                }
                boolean moves = want.minus(moved).magnitude() > CLOSE * source;
                if (floats) {
                    floating++;
                } else if (moves) {
                    weak++;
                } else {
                    Complex got = ours.volts(name, Circuit.EARTH).known();
                    nodes++;
                    if (got.minus(want).magnitude() > CLOSE * source) {
                        wrong.add(name + ": " + got + " V, simulated " + want);
                    }
                }
            }
        }

        private void currents(Solution ours, SpiceDeck deck, Map<String, Complex> theirs, Set<String> tied) {
            record Amperes(String name, Complex got, Complex want) {}
            List<Amperes> all = new ArrayList<>();
            deck.parts().forEach((name, p) -> {
                if (ours.circuit().findBranch(name) == null || !tied.contains(p.from())) {
                    return;
                }
                Complex across = theirs.get(deck.node(p.from())).minus(theirs.get(deck.node(p.to())));
                Complex want = across.over(new Complex(p.ohms(), p.reactance()));
                SpiceDeck.Part lagging = deck.parts().get(name + " lagging");
                if (lagging != null) {
                    want = want.plus(across.over(new Complex(0, lagging.reactance())));
                }
                all.add(new Amperes(name, ours.amperes(name), want));
            });
            double largest =
                    all.stream().mapToDouble(a -> a.want.magnitude()).max().orElse(0);
            largest = Math.max(largest, 0.1); // where next to nothing flows, the simulator's rounding does
            for (Amperes a : all) {
                if (a.got.minus(a.want).magnitude() > CLOSE * largest) {
                    wrong.add(a.name + ": " + a.got + " A, simulated " + a.want);
                }
            }
        }
    }
}
