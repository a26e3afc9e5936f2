package org.splicebook.loadflow;

import java.util.List;
import java.util.Random;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/** Random states of a house: loads, levers, what is open, and faults. The same seed gives the same state. */
final class RandomCases {
    private final Circuit circuit;
    private final Random random;

    private RandomCases(Circuit circuit, long seed) {
        this.circuit = circuit;
        this.random = new Random(seed * 6151 + 11);
    }

    /** {@return a state with linear loads; of everything that can be open it says whether it is} */
    static LoadCase linear(Circuit circuit, long seed, int faults) {
        RandomCases r = new RandomCases(circuit, seed);
        LoadCase c = r.loads(r.positions(LoadCase.nothingOn().at(20 + r.random.nextInt(60))));
        for (int i = 0; i < faults; i++) {
            c = c.fault(r.fault());
        }
        return c;
    }

    private boolean chance(double p) {
        return random.nextDouble() < p;
    }

    private <T> T any(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private LoadCase positions(LoadCase start) {
        LoadCase c = start;
        for (var lever : circuit.levers().entrySet()) {
            c = c.lever(lever.getKey(), any(lever.getValue()));
        }
        for (String gate : circuit.gates()) {
            if (gate.endsWith(".electrode")) {
                continue;
            }
            c = chance(0.96) ? c.close(gate) : c.open(gate);
        }
        House house = circuit.house();
        for (Panel p : house.panels().values()) {
            for (List<String> group : p.exclusive()) {
                String one = any(group);
                for (String member : group) {
                    c = member.equals(one) ? c.close(p.name() + "." + member) : c.open(p.name() + "." + member);
                }
            }
            if (chance(0.2)) {
                c = c.electrode(p.name(), 5 + random.nextInt(95));
            }
        }
        return c;
    }

    private LoadCase loads(LoadCase start) {
        LoadCase c = start;
        for (LoadPoint p : circuit.loadPoints()) {
            for (LoadPoint.Pair pair : p.pairs()) {
                String name = circuit.branches().get(pair.branch()).name();
                Load load = chance(0.4)
                        ? Load.OFF
                        : new Load(
                                Load.Model.IMPEDANCE,
                                5 + random.nextInt(1500),
                                chance(0.7) ? 1 : 0.5 + random.nextInt(50) / 100.0);
                c = c.load(name, load);
            }
        }
        return c;
    }

    private Fault fault() {
        return switch (random.nextInt(7)) {
            case 0 -> new Fault.Open(any(breakable()));
            case 1 -> new Fault.Loose(any(breakable()), ohms(-2, 2));
            case 2 -> chance(0.5) ? new Fault.Open("service.n") : new Fault.Loose("service.n", ohms(-2, 1));
            case 3 ->
                new Fault.OpenJoint(any(circuit.nodes().stream()
                        .filter(n -> n.matches("b\\d+:.*"))
                        .toList()));
            case 4 -> new Fault.Touch(any(terminals()), chance(0.3) ? Circuit.EARTH : any(terminals()), ohms(3, 5));
            default -> new Fault.Touch(any(terminals()), any(terminals()), ohms(-2, 3));
        };
    }

    /** Wires and connections of wire ends. */
    private List<String> breakable() {
        return circuit.branches().stream()
                .filter(b -> b.kind() == Branch.Kind.WIRE)
                .flatMap(b -> java.util.stream.Stream.of(b.name(), b.name() + "@1", b.name() + "@2"))
                .filter(n -> circuit.findBranch(n) != null)
                .toList();
    }

    private List<String> terminals() {
        return circuit.nodes().stream()
                .filter(n -> n.startsWith("d") || n.contains("@") || n.endsWith(".box"))
                .toList();
    }

    private double ohms(int from, int to) {
        return Math.pow(10, from + (to - from) * random.nextDouble());
    }
}
