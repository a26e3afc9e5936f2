package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Ordered;

/** A house as nodes and branches: everything that conducts, with what opens and closes it. Immutable. */
public final class Circuit {
    /** The node that stands for the ground under the house. */
    public static final String EARTH = "earth";

    private final House house;
    private final List<String> nodes;
    private final Map<String, Integer> nodeByName;
    private final List<Branch> branches;
    private final Map<String, Integer> branchByName;
    private final List<LoadPoint> loadPoints;
    private final List<Sensor> sensors;
    private final List<CircuitSource> sources;
    private final Map<String, List<String>> levers;
    private final Set<String> gates;
    private final Set<String> openAsFound;
    private final List<Assumption> assumptions;
    private final Set<Integer> bars;
    private final Map<Integer, Double> measured;

    Circuit(CircuitBuilder b) {
        house = b.house;
        nodes = List.copyOf(b.nodes);
        nodeByName = b.nodeByName;
        branches = List.copyOf(b.branches);
        branchByName = b.branchByName;
        loadPoints = List.copyOf(b.loadPoints);
        sensors = List.copyOf(b.sensors);
        sources = List.copyOf(b.sources);
        levers = Ordered.map(b.levers);
        gates = Ordered.set(b.gates);
        openAsFound = Ordered.set(b.openAsFound);
        assumptions = List.copyOf(b.assumptions);
        bars = Ordered.set(b.bars);
        measured = Ordered.map(b.measured);
    }

    private Circuit(Circuit from, List<Branch> branches, Map<String, Integer> branchByName) {
        house = from.house;
        nodes = from.nodes;
        nodeByName = from.nodeByName;
        this.branches = List.copyOf(branches);
        this.branchByName = branchByName;
        loadPoints = from.loadPoints;
        sensors = from.sensors;
        sources = from.sources;
        levers = from.levers;
        gates = from.gates;
        openAsFound = from.openAsFound;
        assumptions = from.assumptions;
        bars = from.bars;
        measured = from.measured;
    }

    /** {@return the circuit of a house} */
    public static Circuit of(House house) {
        return CircuitBuilder.build(house);
    }

    /** {@return the house that it is of} */
    public House house() {
        return house;
    }

    /** {@return the names of the nodes, by number} */
    public List<String> nodes() {
        return nodes;
    }

    /** {@return the branches, by number} */
    public List<Branch> branches() {
        return branches;
    }

    /** {@return the load points} */
    public List<LoadPoint> loadPoints() {
        return loadPoints;
    }

    /** {@return the load point of that name, or null} */
    public @Nullable LoadPoint findLoadPoint(String name) {
        for (LoadPoint p : loadPoints) {
            if (p.name().equals(name)) {
                return p;
            }
        }
        return null;
    }

    /** {@return the protective devices} */
    public List<Sensor> sensors() {
        return sensors;
    }

    List<CircuitSource> sources() {
        return sources;
    }

    /** {@return the levers by name, each with its positions} */
    public Map<String, List<String>> levers() {
        return levers;
    }

    /** {@return what can be open or closed: breakers, poles, mains, protective devices} */
    public Set<String> gates() {
        return gates;
    }

    /** {@return what was found open} */
    public Set<String> openAsFound() {
        return openAsFound;
    }

    /** {@return what was taken where the record is silent, one for each thing} */
    public List<Assumption> assumptions() {
        return assumptions;
    }

    /** {@return the ohms that were measured, by branch} */
    Map<Integer, Double> measured() {
        return measured;
    }

    /** {@return whether the node is a bus, a bar, a lug or a terminal of a source: a branch circuit ends there} */
    boolean isBar(int node) {
        return bars.contains(node);
    }

    /** {@return the number of the node of that name, or null; see the package page for names} */
    public @Nullable Integer findNode(String name) {
        return nodeByName.get(name);
    }

    /** {@return the number of the branch of that name, or null; see the package page for names} */
    public @Nullable Integer findBranch(String name) {
        return branchByName.get(name);
    }

    /** {@return the numbers of the arms of the joint of that name} */
    List<Integer> armsOf(int joint) {
        List<Integer> arms = new ArrayList<>();
        for (int i = 0; i < branches.size(); i++) {
            if (branches.get(i).kind() == Branch.Kind.ARM && branches.get(i).from() == joint) {
                arms.add(i);
            }
        }
        return arms;
    }

    /** {@return this with some branches replaced and some added} */
    Circuit with(Map<Integer, Branch> replaced, List<Branch> added) {
        List<Branch> all = new ArrayList<>(branches);
        replaced.forEach(all::set);
        Map<String, Integer> names = new LinkedHashMap<>(branchByName);
        for (Branch b : added) {
            names.put(b.name(), all.size());
            all.add(b);
        }
        return new Circuit(this, all, names);
    }
}
