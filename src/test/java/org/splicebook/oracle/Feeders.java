package org.splicebook.oracle;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.record.Source;

/** What the buses and bars reach in one world: which source poles each bus, whether each bar goes on to a source. */
final class Feeders {
    /** A region of the feeder part of the house. */
    private record Region(BitSet all, boolean feeder, boolean hot) {}

    private final World world;
    private final BitSet part;
    private final List<Region> regions = new ArrayList<>();
    private final Set<String> cables;
    private final Map<Integer, Set<String>> sourcesOfBus = new HashMap<>();
    private final Map<Integer, Boolean> live = new HashMap<>();
    final BitSet neutralBars = new BitSet();
    final BitSet groundBars = new BitSet();

    /**
     * @param part the vertices that may belong to feeders in any position: see {@link #part}
     * @param cables the cables that have a wire in a hot feeder, whatever is taken away and however the levers stand
     */
    Feeders(World world, BitSet part, Set<String> cables) {
        this(world, part, cables, true);
    }

    private Feeders(World world, BitSet part, Set<String> cables, boolean bars) {
        this.world = world;
        this.part = part;
        this.cables = cables;
        findRegions();
        for (Vertex v : world.net.vertices) {
            if (isHotSource(v) && world.conducts(v.id)) {
                for (int bus : busesFrom(v.id)) {
                    sourcesOfBus.computeIfAbsent(bus, b -> new TreeSet<>()).add(v.name);
                }
            }
        }
        if (bars) {
            findNeutralBars();
            findGroundBars();
        }
    }

    /** {@return the vertices of every region that may be a feeder's, or go along with one, with all levers conducting} */
    static BitSet part(Netlist net) {
        Feeders whole = whole(net);
        BitSet part = new BitSet();
        for (Region r : whole.regions) {
            if (r.feeder || whole.goesOn(r)) {
                part.or(r.all);
            }
        }
        for (Vertex v : net.vertices) {
            if (World.cuts(v)) {
                part.clear(v.id);
            }
        }
        return part;
    }

    /** {@return the cables that have a wire in a hot feeder region, with all levers conducting} */
    static Set<String> cables(Netlist net) {
        return whole(net).cables;
    }

    private static Feeders whole(Netlist net) {
        BitSet everything = new BitSet();
        everything.set(0, net.vertices.size());
        Set<String> cables = new HashSet<>();
        Feeders whole = new Feeders(World.with(net, World.ALL), everything, cables, false);
        for (Region r : whole.regions) {
            if (r.feeder && r.hot) {
                r.all.stream()
                        .mapToObj(net.vertices::get)
                        .filter(x -> x.kind == Kind.WIRE)
                        .forEach(x -> cables.add(x.owner));
            }
        }
        return whole;
    }

    static boolean isHotSource(Vertex v) {
        return v.kind == Kind.SOURCE && !v.name.endsWith(".n") && !v.name.endsWith(".g");
    }

    private void findRegions() {
        Netlist net = world.net;
        BitSet done = new BitSet();
        for (int v = part.nextSetBit(0); v >= 0; v = part.nextSetBit(v + 1)) {
            if (done.get(v) || World.cuts(net.vertices.get(v)) || !world.conducts(v)) {
                continue;
            }
            BitSet all = world.flood(v);
            done.or(all);
            Set<String> panels = new HashSet<>();
            boolean feeder = false;
            boolean hot = false;
            for (int w = all.nextSetBit(0); w >= 0; w = all.nextSetBit(w + 1)) {
                Vertex x = net.vertices.get(w);
                feeder |= x.kind == Kind.LUG || x.kind == Kind.SOURCE;
                hot |= x.kind == Kind.BUS || isHotSource(x);
                if (x.kind == Kind.BUS) {
                    panels.add(x.owner);
                }
                if (x.kind == Kind.SPACE) {
                    for (int n : net.next[w]) {
                        feeder |= net.vertices.get(n).kind == Kind.BUS;
                    }
                }
            }
            regions.add(new Region(all, feeder || panels.size() > 1, hot));
        }
    }

    private boolean goesOn(Region r) {
        return r.all.stream()
                .mapToObj(world.net.vertices::get)
                .anyMatch(x -> x.kind == Kind.SOURCE || x.kind == Kind.WIRE && cables.contains(x.owner));
    }

    private Set<Integer> busesFrom(int source) {
        Set<Integer> buses = new HashSet<>();
        Set<Region> passed = new HashSet<>();
        ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(source));
        while (!queue.isEmpty()) {
            int at = queue.poll();
            for (Region r : regions) {
                if (r.feeder && r.all.get(at) && passed.add(r)) {
                    for (int w = r.all.nextSetBit(0); w >= 0; w = r.all.nextSetBit(w + 1)) {
                        if (world.net.vertices.get(w).kind == Kind.BUS && buses.add(w)) {
                            queue.add(w);
                        }
                    }
                }
            }
        }
        return buses;
    }

    private void findNeutralBars() {
        boolean more = true;
        while (more) {
            more = false;
            for (Region r : regions) {
                boolean reaches = r.all.intersects(neutralBars) || holdsSource(r, ".n");
                if (reaches && goesOn(r)) {
                    more |= addBars(r, Kind.NEUTRAL_BAR, neutralBars);
                }
            }
        }
    }

    private boolean holdsSource(Region r, String end) {
        return r.all.stream()
                .mapToObj(world.net.vertices::get)
                .anyMatch(v -> v.kind == Kind.SOURCE && v.name.endsWith(end));
    }

    private boolean addBars(Region r, Kind kind, BitSet to) {
        boolean added = false;
        for (int w = r.all.nextSetBit(0); w >= 0; w = r.all.nextSetBit(w + 1)) {
            if (world.net.vertices.get(w).kind == kind && !to.get(w)) {
                to.set(w);
                added = true;
            }
        }
        return added;
    }

    private void findGroundBars() {
        Netlist net = world.net;
        for (var p : net.house.panels().values()) {
            boolean bonded = p.bonded() || net.strapped.contains(p.name());
            if (bonded && neutralBars.get(net.at(p.name() + ".n"))) {
                groundBars.set(net.at(p.name() + ".g"));
            }
        }
        BitSet ends = new BitSet();
        for (Source s : net.house.sources().values()) {
            if (s.bond() != null && neutralBars.get(net.at(s.bond() + ".n"))) {
                ends.set(net.at(s.bond() + ".n"));
            }
        }
        boolean more = true;
        while (more) {
            more = false;
            for (Region r : regions) {
                boolean reaches = r.all.intersects(groundBars) || r.all.intersects(ends) || holdsSource(r, ".g");
                if (reaches && goesOn(r)) {
                    more |= addBars(r, Kind.GROUND_BAR, groundBars);
                }
            }
        }
    }

    /** {@return the source poles that a bus reaches} */
    Set<String> sources(int bus) {
        return sourcesOfBus.getOrDefault(bus, Set.of());
    }

    /** {@return whether a pole's bus is live with the pole itself taken away} */
    boolean live(int pole) {
        return live.computeIfAbsent(pole, p -> {
            int bus = bus(p);
            if (sources(bus).isEmpty() || !part.get(p)) {
                return !sources(bus).isEmpty();
            }
            BitSet own = new BitSet();
            own.set(p);
            return !new Feeders(world.without(own), part, cables, false)
                    .sources(bus)
                    .isEmpty();
        });
    }

    int bus(int pole) {
        return world.net.busOfPole.get(world.net.vertices.get(pole).name.substring(5));
    }
}
