package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Wire;
import org.splicebook.wiring.MayNet;

/** What hands can come to in a target, and what can be parted in it. */
final class Contents {
    /** Everything of the record in it. */
    final Set<Integer> things = new LinkedHashSet<>();
    /** Nodes to start from beside the things: the unknown of a box, the world. */
    final Set<Integer> unknown = new LinkedHashSet<>();
    /** Its wire ends (of a cable: its wires), as the target's list tells them. */
    final Map<String, Integer> conductors = new TreeMap<>();
    /** Joints, and of a cable or spot the wires, all of which come apart at worst. */
    final BitSet parts = new BitSet();
    /** Wire ends that can be lifted out of their joints one by one. */
    final Set<Integer> lifts = new LinkedHashSet<>();
    /** Poles inside an opened panel: they are touched, not thrown. */
    final BitSet inside = new BitSet();
    /** Cables that are in it only perhaps. */
    final Set<String> perhaps = new LinkedHashSet<>();
    /** Whether a panel is among it. */
    boolean holdsPanel;

    final Target target;
    private final House house;
    private final MayNet net;

    private Contents(House house, MayNet net, Target target) {
        this.house = house;
        this.net = net;
        this.target = target;
    }

    /** {@return what is in a target} */
    static Contents of(House house, MayNet net, Target target) {
        Contents c = new Contents(house, net, target);
        if (target instanceof Target.Boxes b) {
            b.names().forEach(c::box);
        } else if (target instanceof Target.Room r) {
            c.boxesOf(r.place()).forEach(c::box);
        } else if (target instanceof Target.Cable k) {
            Cable cable = house.cables().get(k.name());
            if (cable == null) {
                throw new IllegalArgumentException("no cable " + k.name());
            }
            c.cable(cable);
        } else if (target instanceof Target.Spot s) {
            c.spot(s);
        }
        return c;
    }

    private List<String> boxesOf(String place) {
        List<String> all = new ArrayList<>();
        house.panels().values().stream().filter(p -> place.equals(p.place())).forEach(p -> all.add(p.name()));
        house.boxes().values().stream().filter(b -> place.equals(b.place())).forEach(b -> all.add(b.name()));
        return all;
    }

    private void box(String name) {
        Box box = house.boxes().get(name);
        Panel panel = house.panels().get(name);
        if (box == null && panel == null) {
            throw new IllegalArgumentException("no box or panel " + name);
        }
        holdsPanel |= panel != null;
        for (int v = 0; v < net.size(); v++) {
            if (net.box(v).equals(name)) {
                thing(v);
            }
        }
        house.cables().values().forEach(c -> cableAt(name, c));
        boolean cables = box != null
                ? house.isComplete(box, Complete.CABLES)
                : panel != null && house.isComplete(panel, Complete.LANDINGS);
        unknown.addAll(net.unknownOf(name));
        if (!cables) {
            unknown.add(net.world());
        }
    }

    private void thing(int v) {
        things.add(v);
        switch (net.kind(v)) {
            case JOINT -> parts.set(v);
            case WIRE_END -> {
                conductors.put(net.name(v), v);
                lifts.add(v);
            }
            case METAL -> conductors.put(net.name(v) + ".box", v);
            case POLE, MAIN_POLE -> inside.set(v);
            default -> {}
        }
    }

    private void cableAt(String box, Cable c) {
        boolean passes = c.through().contains(box);
        boolean mayEnd = c.ends().stream()
                .anyMatch(e -> e instanceof CableEnd.OneOf one && one.boxes().contains(box));
        if (!passes && !mayEnd) {
            return;
        }
        if (mayEnd) {
            perhaps.add(c.name());
        }
        for (Wire w : c.wires()) {
            int v = wire(c, w);
            things.add(v);
            conductors.putIfAbsent(net.name(v), v);
        }
    }

    private int wire(Cable c, Wire w) {
        int end = net.wireEnd(c.name() + "." + w.name(), 1);
        for (int i = 0; i < net.recordedCount(end); i++) {
            if (net.kind(net.recorded(end, i)) == MayNet.Kind.WIRE) {
                return net.recorded(end, i);
            }
        }
        throw new IllegalStateException("no wire " + c.name() + "." + w.name());
    }

    private void cable(Cable c) {
        for (Wire w : c.wires()) {
            int v = wire(c, w);
            things.add(v);
            conductors.put(net.name(v), v);
            parts.set(v);
            things.add(net.wireEnd(net.name(v), 1));
            things.add(net.wireEnd(net.name(v), 2));
        }
    }

    private void spot(Target.Spot s) {
        Set<String> near = new LinkedHashSet<>(s.between());
        if (s.place() != null) {
            near.addAll(boxesOf(s.place()));
        }
        for (Cable c : house.cables().values()) {
            cable(c);
            boolean known = c.through().stream().anyMatch(near::contains)
                    || c.ends().stream().anyMatch(e -> e.boxOrNull() != null && near.contains(e.boxOrNull()));
            if (!known) {
                perhaps.add(c.name());
            }
        }
        unknown.add(net.world());
    }

    /** {@return the box a conductor of the target is in; a cable's wires go together} */
    String boxOf(String conductor) {
        int v = conductors.getOrDefault(conductor, -1);
        String box = v < 0 ? "" : net.box(v);
        return box.isEmpty() ? "" : box;
    }

    /** {@return the nodes to start from with these things taken away} */
    int[] starts(BitSet gone) {
        List<Integer> all = new ArrayList<>(unknown);
        things.stream().filter(v -> !gone.get(v)).forEach(all::add);
        return all.stream().mapToInt(Integer::intValue).toArray();
    }
}
