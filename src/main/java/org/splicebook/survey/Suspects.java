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
    static final double JOINED_OHMS = 1e-3;

    private final Circuit circuit;
    private final Whereabouts where;
    private final List<List<Integer>> at = new ArrayList<>();
    private final List<Suspect> all = new ArrayList<>();
    /** The links that are breakable tabs. */
    private final Set<String> tabs = new TreeSet<>();

    private Suspects(Circuit circuit) {
        this.circuit = circuit;
        this.where = new Whereabouts(circuit.house());
        circuit.nodes().forEach(n -> at.add(new ArrayList<>(2)));
        for (int i = 0; i < circuit.branches().size(); i++) {
            Branch b = circuit.branches().get(i);
            at.get(b.from()).add(i);
            at.get(b.to()).add(i);
        }
        circuit.house()
                .boxes()
                .values()
                .forEach(box -> box.devices()
                        .values()
                        .forEach(d ->
                                d.kind().tabs().forEach(t -> tabs.add(d.name() + "[" + t.a() + "," + t.b() + "]"))));
    }

    static List<Suspect> of(Circuit circuit) {
        Suspects s = new Suspects(circuit);
        s.rows().values().forEach(s::openOrLoose);
        s.tripped();
        circuit.loadPoints().forEach(s::atPoint);
        s.legs();
        s.stuck();
        s.tabs();
        new WrongSplices(circuit).each(s::add);
        return List.copyOf(s.all);
    }

    private void add(FaultKind kind, List<String> places, List<Fault> faults, List<String> opened) {
        Set<String> boxes = new TreeSet<>();
        places.forEach(p -> boxes.addAll(where.of(p)));
        all.add(Suspect.of(kind, places, boxes, faults, opened));
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
    private Map<Integer, List<Branch>> rows() {
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
        Map<Integer, List<Branch>> rows = new LinkedHashMap<>();
        for (int i = 0; i < row.length; i++) {
            if (canOpen(circuit.branches().get(i))) {
                rows.computeIfAbsent(head(row, i), k -> new ArrayList<>())
                        .add(circuit.branches().get(i));
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

    private void openOrLoose(List<Branch> row) {
        List<String> names = row.stream().map(Branch::name).toList();
        String one = names.get(0);
        boolean isTab = row.size() == 1 && tabs.contains(one);
        add(isTab ? FaultKind.TAB_OUT : FaultKind.OPEN, names, List.of(new Fault.Open(one)), List.of());
        for (double ohms : LOOSE_OHMS) {
            if (!isTab) {
                add(FaultKind.LOOSE, names, List.of(new Fault.Loose(one, ohms)), List.of());
            }
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
                add(FaultKind.TRIPPED, List.of(unit), List.of(), List.of(unit));
            }
        }
    }

    private void atPoint(LoadPoint p) {
        Branch load = circuit.branches().get(p.pairs().get(0).branch());
        String hot = circuit.nodes().get(load.from());
        String neutral = circuit.nodes().get(load.to());
        touch(FaultKind.SHORT, hot, neutral, TOUCH_OHMS);
        if (p.ground() >= 0) {
            String ground = circuit.nodes().get(p.ground());
            touch(FaultKind.SHORT, hot, ground, TOUCH_OHMS);
            if (p.ground() != load.to()) {
                touch(FaultKind.NEUTRAL_TO_GROUND, neutral, ground, TOUCH_OHMS);
            }
        }
        List<Branch> hots = arms(load.from());
        List<Branch> neutrals = arms(load.to());
        if (p.receptacle() && hots.size() == 1 && neutrals.size() == 1) {
            Branch h = hots.get(0);
            Branch n = neutrals.get(0);
            add(
                    FaultKind.REVERSED,
                    List.of(p.name()),
                    List.of(
                            new Fault.Open(h.name()),
                            new Fault.Open(n.name()),
                            new Fault.Touch(far(h, load.from()), neutral, JOINED_OHMS),
                            new Fault.Touch(far(n, load.to()), hot, JOINED_OHMS)),
                    List.of());
        }
    }

    private void touch(FaultKind kind, String a, String b, double ohms) {
        add(kind, List.of(a, b), List.of(new Fault.Touch(a, b, ohms)), List.of());
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
                add(FaultKind.WRONG_LEG, List.of(b.name()), List.of(new Fault.OnLeg(b.name(), other)), List.of());
            }
        }
    }

    /** Contacts of switches, breakers and protective devices that no longer open. */
    private void stuck() {
        for (Branch b : circuit.branches()) {
            if (b.kind() == Branch.Kind.CONTACT && b.gate() != null && b.ohms() > 0) {
                add(FaultKind.STUCK, List.of(b.name()), List.of(new Fault.Stuck(b.name())), List.of());
            }
        }
    }

    /** Tabs that a duplex receptacle should have lost: with its two halves on ways of their own. */
    private void tabs() {
        circuit.house()
                .boxes()
                .values()
                .forEach(box -> box.devices()
                        .values()
                        .forEach(d -> d.kind().tabs().forEach(t -> {
                            String a = d.name() + "." + t.a();
                            String b = d.name() + "." + t.b();
                            Integer from = circuit.findNode(a);
                            Integer to = circuit.findNode(b);
                            if (from != null && to != null && !joined(from, to)) {
                                touch(FaultKind.TAB_IN, a, b, JOINED_OHMS);
                            }
                        })));
    }

    private boolean joined(int a, int b) {
        return at.get(a).stream()
                .map(circuit.branches()::get)
                .anyMatch(x -> x.kind() == Branch.Kind.LINK && (x.from() == b || x.to() == b));
    }
}
