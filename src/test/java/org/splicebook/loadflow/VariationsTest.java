package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;

/** A variation is what solving its whole state anew gives. */
class VariationsTest {
    private static final double VOLTS = 0.3;

    @ParameterizedTest
    @ValueSource(longs = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15})
    void aVariationIsWhatTheWholeStateGives(long seed) {
        Random random = new Random(seed);
        LoadFlow flow = LoadFlow.of(RandomHouses.house(seed, Shape.SMALL));
        Circuit circuit = flow.circuit();
        List<List<Fault>> wrong = new ArrayList<>();
        List<Fault> touches = new ArrayList<>();
        for (int i = 0; i < 120; i++) {
            List<Fault> faults = new ArrayList<>();
            for (int j = 0; j <= random.nextInt(3); j++) {
                faults.add(fault(circuit, random));
            }
            wrong.add(faults);
            touches.addAll(faults);
        }
        List<String> gates = List.copyOf(circuit.gates());
        LoadCase state = LoadCase.of(LoadCase.Base.values()[random.nextInt(4)]);
        Variations v = Variations.of(flow, state, touches);
        for (List<Fault> faults : wrong) {
            List<String> open = random.nextInt(4) == 0 ? List.of(gates.get(random.nextInt(gates.size()))) : List.of();
            LoadCase whole = state;
            for (Fault f : faults) {
                whole = whole.fault(f);
            }
            for (String o : open) {
                whole = whole.open(o);
            }
            Solution right = flow.solve(whole).get();
            Variations.Varied varied = v.with(faults, open);
            if (right.settled()) {
                same(right, varied.solution(), circuit, "seed " + seed + ", " + faults + " " + open);
            }
        }
    }

    private static void same(Solution right, Solution got, Circuit circuit, String about) {
        for (LoadPoint p : circuit.loadPoints()) {
            Branch b = circuit.branches().get(p.pairs().get(0).branch());
            compare(right.volts(b.from(), b.to()), got.volts(b.from(), b.to()), about + " at " + p.name());
            if (p.ground() >= 0) {
                compare(right.volts(b.from(), p.ground()), got.volts(b.from(), p.ground()), about + " at " + p.name());
            }
        }
    }

    private static void compare(Volts right, Volts got, String about) {
        assertThat(got.floats()).as(about).isEqualTo(right.floats());
        assertThat(got.fed()).as(about).isEqualTo(right.fed());
        if (!right.floats() && right.fed()) {
            assertThat(got.magnitude()).as(about).isCloseTo(right.magnitude(), within(VOLTS));
        }
    }

    private static Fault fault(Circuit circuit, Random random) {
        List<Branch> branches = circuit.branches();
        Branch any = branches.get(random.nextInt(branches.size()));
        String from = circuit.nodes().get(any.from());
        String name = circuit.findBranch(any.name()) == branches.indexOf(any)
                        && any.kind() != Branch.Kind.WINDING
                        && any.kind() != Branch.Kind.LOAD
                ? any.name()
                : "main.n";
        boolean isBranch = circuit.findBranch(name) != null;
        return switch (random.nextInt(4)) {
            case 0 -> isBranch ? new Fault.Open(name) : touch(circuit, from, random);
            case 1 -> isBranch ? new Fault.Loose(name, 1 + random.nextInt(15)) : touch(circuit, from, random);
            case 2 -> any.kind() == Branch.Kind.CONTACT ? new Fault.Stuck(any.name()) : touch(circuit, from, random);
            default -> touch(circuit, from, random);
        };
    }

    private static Fault touch(Circuit circuit, String from, Random random) {
        String other = circuit.nodes().get(random.nextInt(circuit.nodes().size()));
        return new Fault.Touch(from, other.equals(from) ? "earth" : other, 0.05 + random.nextInt(3));
    }
}
