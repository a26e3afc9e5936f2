package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;

/** Random houses in random states, with loads whose current is in proportion to their voltage, and with faults. */
final class RandomStates {
    private RandomStates() {}

    static House house(long seed) {
        return RandomHouses.house(seed, Shape.of(seed));
    }

    /** {@return a case of that seed with up to so many faults} */
    static LoadCase of(Circuit circuit, long seed, int mostFaults) {
        Random random = new Random(seed * 31 + 5);
        LoadCase c = LoadCase.nothingOn();
        for (LoadPoint p : circuit.loadPoints()) {
            for (LoadPoint.Pair pair : p.pairs()) {
                if (random.nextDouble() < 0.6) {
                    String name = circuit.branches().get(pair.branch()).name();
                    c = c.load(
                            name,
                            new Load(
                                    Load.Model.IMPEDANCE,
                                    Math.pow(10, 0.5 + random.nextDouble() * 3),
                                    random.nextDouble() < 0.5 ? 1 : 0.6 + 0.4 * random.nextDouble()));
                }
            }
        }
        for (Map.Entry<String, List<String>> l : circuit.levers().entrySet()) {
            c = c.lever(l.getKey(), l.getValue().get(random.nextInt(l.getValue().size())));
        }
        for (String gate : circuit.gates()) {
            if (random.nextDouble() < 0.08) {
                c = c.open(gate);
            }
        }
        int faults = mostFaults == 0 ? 0 : random.nextInt(mostFaults + 1);
        for (int i = 0; i < faults; i++) {
            c = c.fault(fault(circuit, random));
        }
        return c;
    }

    private static Fault fault(Circuit circuit, Random random) {
        List<String> arms = new ArrayList<>();
        for (Branch b : circuit.branches()) {
            if (b.kind() == Branch.Kind.ARM || b.kind() == Branch.Kind.WIRE) {
                arms.add(b.name());
            }
        }
        String arm = arms.get(random.nextInt(arms.size()));
        return switch (random.nextInt(4)) {
            case 0 -> new Fault.Open(arm);
            case 1 -> new Fault.Loose(arm, Math.pow(10, random.nextDouble() * 3 - 1));
            case 2 -> new Fault.Open("service.n");
            default ->
                new Fault.Touch(
                        circuit.nodes().get(random.nextInt(circuit.nodes().size())),
                        random.nextBoolean()
                                ? "main.g"
                                : circuit.nodes()
                                        .get(random.nextInt(circuit.nodes().size())),
                        Math.pow(10, random.nextDouble() * 5 - 1));
        };
    }
}
