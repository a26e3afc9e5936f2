package org.splicebook.survey;

import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.Fault;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.wiring.PanelLegs;

/**
 * The parts into which a circuit falls when the buses and bars are taken out of every panel that a source feeds. What is wrong in one part,
 * and trips nothing, does not change what a lamp or a meter shows in another, but for the volt or two of the source: both hang on bars that
 * the source holds. Parts with a source in them, and what lies between bars, bear on all.
 */
final class Regions {
    private static final int ALL = -1;
    private static final int MOST_LEGS = 3;

    private final Circuit circuit;
    private final int[] part;
    private final BitSet onAll = new BitSet();
    private final Map<String, Set<Integer>> byUnit = new HashMap<>();

    private Regions(Circuit circuit) {
        this.circuit = circuit;
        int n = circuit.nodes().size();
        this.part = new int[n];
        for (int v = 0; v < n; v++) {
            part[v] = v;
        }
        cut().stream().forEach(v -> part[v] = ALL);
        for (Branch b : circuit.branches()) {
            if (part[b.from()] != ALL && part[b.to()] != ALL) {
                part[head(b.from())] = head(b.to());
            }
        }
        for (int v = 0; v < n; v++) {
            part[v] = part[v] == ALL ? ALL : head(v);
        }
        House house = circuit.house();
        for (int v = 0; v < n; v++) {
            String name = circuit.nodes().get(v);
            int dot = name.indexOf('.');
            boolean isSource =
                    name.startsWith("?") || (dot > 0 && house.sources().containsKey(name.substring(0, dot)));
            if (isSource && part[v] != ALL) {
                onAll.set(part[v]);
            }
        }
        for (Panel p : house.panels().values()) {
            p.breakers()
                    .values()
                    .forEach(b -> b.spaces()
                            .forEach(space ->
                                    unit(p.name() + "." + b.key(), circuit.findBranch(p.name() + "." + space))));
        }
        for (int b = 0; b < circuit.branches().size(); b++) {
            String name = circuit.branches().get(b).name();
            if (name.indexOf('[') > 0) { // inside a device
                unit(name.substring(0, name.indexOf('[')), b);
            }
        }
    }

    private void unit(String unit, @Nullable Integer branch) {
        int at = branch == null ? ALL : of(circuit.branches().get(branch));
        byUnit.computeIfAbsent(unit, k -> new HashSet<>()).add(at);
    }

    static Regions of(Circuit circuit) {
        return new Regions(circuit);
    }

    private BitSet cut() {
        House house = circuit.house();
        BitSet cut = new BitSet();
        for (Panel p : house.panels().values()) {
            boolean isFed = p.supply().isEmpty() || p.supply().stream().anyMatch(house.sources()::containsKey);
            for (int leg = 0; isFed && leg < MOST_LEGS; leg++) {
                put(cut, p.name() + "." + PanelLegs.letter(leg));
                put(cut, p.name() + ".line-" + (leg + 1));
            }
            for (String bar : isFed ? List.of("n", "g", "box") : List.<String>of()) {
                put(cut, p.name() + "." + bar);
            }
        }
        put(cut, Circuit.EARTH);
        return cut;
    }

    private void put(BitSet set, String node) {
        Integer v = circuit.findNode(node);
        if (v != null) {
            set.set(v);
        }
    }

    private int head(int node) {
        int v = node;
        while (part[v] != v) {
            part[v] = part[part[v]];
            v = part[v];
        }
        return v;
    }

    private int of(Branch b) {
        int at = part[b.from()] == ALL ? part[b.to()] : part[b.from()];
        return at == ALL || onAll.get(at) ? ALL : at;
    }

    private int of(int node) {
        return part[node] == ALL || onAll.get(part[node]) ? ALL : part[node];
    }

    /** {@return the parts that a fault may change; ALL stands for any} */
    private Set<Integer> of(Suspect s) {
        Set<Integer> at = new HashSet<>();
        for (Fault f : s.faults()) {
            if (f instanceof Fault.Open o) {
                at.add(branch(o.branch()));
            } else if (f instanceof Fault.Loose l) {
                at.add(branch(l.branch()));
            } else if (f instanceof Fault.Stuck k) {
                at.add(branch(k.contact()));
            } else if (f instanceof Fault.OnLeg l) {
                at.add(branch(l.pole()));
            } else { // what touches may trip what is far away
                at.add(ALL);
            }
        }
        s.opened().forEach(u -> at.addAll(byUnit.getOrDefault(u, Set.of(ALL))));
        return at;
    }

    private int branch(String name) {
        Integer b = circuit.findBranch(name);
        return b == null ? ALL : of(circuit.branches().get(b));
    }

    /** {@return whether a fault may change what is seen at any of these load points, breakers or devices} */
    boolean mayReach(Suspect s, Set<Integer> there) {
        Set<Integer> at = of(s);
        return !there.isEmpty()
                && (at.contains(ALL) || there.contains(ALL) || at.stream().anyMatch(there::contains));
    }

    /** {@return the parts in which a load point or what may trip lies} */
    Set<Integer> of(String pointOrUnit) {
        LoadPoint p = circuit.findLoadPoint(pointOrUnit);
        if (p == null) {
            return byUnit.getOrDefault(pointOrUnit, Set.of(ALL));
        }
        Set<Integer> at = new HashSet<>();
        for (LoadPoint.Pair pair : p.pairs()) {
            Branch b = circuit.branches().get(pair.branch());
            at.add(of(b.from()));
            at.add(of(b.to()));
        }
        if (p.ground() >= 0) {
            at.add(of(p.ground()));
        }
        return at;
    }
}
