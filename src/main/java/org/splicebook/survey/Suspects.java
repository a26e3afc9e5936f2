package org.splicebook.survey;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.Fault;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.loadflow.Sensor;

/** Every single fault that a house can have, as far as it is looked for. Connections in a row with nothing between stand as one. */
final class Suspects {
    private static final double[] LOOSE_OHMS = {2, 15};
    private static final double TOUCH_OHMS = 0.05;

    private final Circuit circuit;
    private final List<List<Integer>> at = new ArrayList<>();
    private final List<Suspect> all = new ArrayList<>();

    private Suspects(Circuit circuit) {
        this.circuit = circuit;
        circuit.nodes().forEach(n -> at.add(new ArrayList<>(2)));
        for (int i = 0; i < circuit.branches().size(); i++) {
            Branch b = circuit.branches().get(i);
            at.get(b.from()).add(i);
            at.get(b.to()).add(i);
        }
    }

    static List<Suspect> of(Circuit circuit) {
        Suspects s = new Suspects(circuit);
        s.rows().values().forEach(s::openOrLoose);
        s.tripped();
        circuit.loadPoints().forEach(s::atPoint);
        s.legs();
        return List.copyOf(s.all);
    }

    private static boolean canOpen(Branch b) {
        return switch (b.kind()) {
            case WIRE, ARM, LINK, CONTACT, DROP -> true;
            case BOND, WINDING, EARTH, LOAD, FAULT -> false;
        };
    }

    /** A contact of a switch or a protective device: it may conduct in one position only. */
    private static boolean isInDevice(Branch b) {
        return b.kind() == Branch.Kind.CONTACT && b.name().indexOf('[') >= 0;
    }

    /** Branches in a row: a node between just two of them, where no load and no ground terminal of a load sits. */
    private Map<Integer, List<String>> rows() {
        int[] row = new int[circuit.branches().size()];
        for (int i = 0; i < row.length; i++) {
            row[i] = i;
        }
        BitSet faces = new BitSet();
        circuit.loadPoints().stream().filter(p -> p.ground() >= 0).forEach(p -> faces.set(p.ground()));
        for (int v = 0; v < at.size(); v++) {
            List<Integer> here = at.get(v);
            if (here.size() == 2 && !faces.get(v)) {
                Branch a = circuit.branches().get(here.get(0));
                Branch b = circuit.branches().get(here.get(1));
                if (canOpen(a) && canOpen(b) && !isInDevice(a) && !isInDevice(b)) {
                    row[head(row, here.get(0))] = head(row, here.get(1));
                }
            }
        }
        Map<Integer, List<String>> rows = new LinkedHashMap<>();
        for (int i = 0; i < row.length; i++) {
            if (canOpen(circuit.branches().get(i))) {
                rows.computeIfAbsent(head(row, i), k -> new ArrayList<>())
                        .add(circuit.branches().get(i).name());
            }
        }
        return rows;
    }

    private static int head(int[] row, int i) {
        int v = i;
        while (row[v] != v) {
            v = row[v];
        }
        return v;
    }

    private void openOrLoose(List<String> row) {
        String one = row.get(0);
        all.add(Suspect.of(FaultKind.OPEN, row, List.of(new Fault.Open(one)), List.of()));
        for (double ohms : LOOSE_OHMS) {
            all.add(Suspect.of(FaultKind.LOOSE, row, List.of(new Fault.Loose(one, ohms)), List.of()));
        }
    }

    private void tripped() {
        Set<String> units = new TreeSet<>();
        circuit.sensors().stream().map(Sensor::name).forEach(units::add);
        circuit.house().panels().values().forEach(p -> {
            p.breakers().keySet().forEach(k -> units.add(p.name() + "." + k));
            units.add(p.name() + ".main");
        });
        for (String unit : units) {
            if (circuit.gates().contains(unit) && !circuit.openAsFound().contains(unit)) {
                all.add(Suspect.of(FaultKind.TRIPPED, List.of(unit), List.of(), List.of(unit)));
            }
        }
    }

    private void atPoint(LoadPoint p) {
        Branch load = circuit.branches().get(p.pairs().get(0).branch());
        String hot = circuit.nodes().get(load.from());
        String neutral = circuit.nodes().get(load.to());
        all.add(touch(FaultKind.SHORT, hot, neutral));
        if (p.ground() >= 0) {
            String ground = circuit.nodes().get(p.ground());
            all.add(touch(FaultKind.SHORT, hot, ground));
            all.add(touch(FaultKind.NEUTRAL_TO_GROUND, neutral, ground));
        }
        List<Branch> hots = arms(load.from());
        List<Branch> neutrals = arms(load.to());
        if (p.receptacle() && hots.size() == 1 && neutrals.size() == 1) {
            Branch h = hots.get(0);
            Branch n = neutrals.get(0);
            all.add(Suspect.of(
                    FaultKind.REVERSED,
                    List.of(p.name()),
                    List.of(
                            new Fault.Open(h.name()),
                            new Fault.Open(n.name()),
                            new Fault.Touch(far(h, load.from()), neutral, 1e-3),
                            new Fault.Touch(far(n, load.to()), hot, 1e-3)),
                    List.of()));
        }
    }

    private static Suspect touch(FaultKind kind, String a, String b) {
        return Suspect.of(kind, List.of(a + " and " + b), List.of(new Fault.Touch(a, b, TOUCH_OHMS)), List.of());
    }

    private List<Branch> arms(int node) {
        return at.get(node).stream()
                .map(circuit.branches()::get)
                .filter(b -> b.kind() == Branch.Kind.ARM)
                .toList();
    }

    private String far(Branch b, int near) {
        return circuit.nodes().get(b.from() == near ? b.to() : b.from());
    }

    private void legs() {
        for (Branch b : circuit.branches()) {
            String bus = circuit.nodes().get(b.from());
            boolean isPole = b.kind() == Branch.Kind.CONTACT && circuit.gates().contains(b.name());
            String other = bus.endsWith(".a")
                    ? bus.substring(0, bus.length() - 1) + "b"
                    : bus.endsWith(".b") ? bus.substring(0, bus.length() - 1) + "a" : "";
            if (isPole && circuit.findNode(other) != null) {
                all.add(Suspect.of(
                        FaultKind.WRONG_LEG, List.of(b.name()), List.of(new Fault.OnLeg(b.name(), other)), List.of()));
            }
        }
    }
}
