package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.oracle.Oracle.Reach;
import org.splicebook.oracle.Protections.Protector;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.wiring.CrossingKind;

/** Neutral islands and crossings, by going every simple way of every load point's loop. */
final class Islands {
    private final Oracle o;
    private final Netlist net;
    private final List<Island> islands = new ArrayList<>();

    private static final class Island {
        final TreeMap<String, Integer> landings = new TreeMap<>();
        final TreeSet<String> wires = new TreeSet<>();
        final TreeSet<String> loads = new TreeSet<>();
        final TreeSet<String> poles = new TreeSet<>();
        final TreeSet<String> borrowed = new TreeSet<>();
        final TreeSet<String> elsewhere = new TreeSet<>();

        String id() {
            return landings.firstKey();
        }
    }

    Islands(Oracle o) {
        this.o = o;
        this.net = o.net;
    }

    void find() {
        islands();
        for (Load l : net.loads) {
            returnsOf(l);
        }
        for (Island i : islands) {
            i.loads.forEach(l -> i.poles.addAll(o.feeds.getOrDefault(l, new TreeSet<>())));
        }
        for (Load l : net.loads) {
            parting(l);
            across(l);
        }
        for (Island i : islands) {
            o.facts.island(i.id(), i.landings.keySet(), i.wires, i.poles, i.loads);
            sharing(i);
        }
        neutralToGround();
    }

    private void islands() {
        World w = World.leversOpen(net);
        Set<String> feederCables = o.feederCables;
        BitSet done = new BitSet();
        for (Vertex landing : net.vertices) {
            if (!landing.landing || done.get(landing.id) || !onNeutral(landing)) {
                continue;
            }
            BitSet region = w.flood(landing.id);
            done.or(region);
            Island i = new Island();
            boolean feeder = false;
            for (int v = region.nextSetBit(0); v >= 0; v = region.nextSetBit(v + 1)) {
                Vertex x = net.vertices.get(v);
                feeder |= x.kind == Kind.SOURCE
                        || x.kind == Kind.LUG
                        || x.kind == Kind.WIRE && feederCables.contains(x.owner);
                if (x.kind == Kind.WIRE) {
                    i.wires.add(x.name);
                } else if (x.landing && onNeutral(x)) {
                    i.landings.put(x.name, v);
                }
            }
            if (!feeder && !o.isGround(region)) {
                islands.add(i);
            }
        }
    }

    private boolean onNeutral(Vertex landing) {
        for (int n : net.next[landing.id]) {
            Vertex x = net.vertices.get(n);
            if (x.kind == Kind.NEUTRAL_BAR || x.kind == Kind.SPACE && x.name.endsWith(".neutral")) {
                return true;
            }
        }
        return false;
    }

    private void returnsOf(Load l) {
        for (World w : o.positions(l.terminals())) {
            for (int t : l.terminals()) {
                Reach r = o.reach(w, t);
                if (!r.hot() && r.neutral()) {
                    islands.stream().filter(i -> on(i, r)).forEach(i -> i.loads.add(l.id()));
                }
            }
        }
    }

    private static boolean on(Island i, Reach r) {
        return i.landings.values().stream().anyMatch(r.seen()::get);
    }

    private BitSet poles(Reach r) {
        BitSet b = new BitSet();
        r.poles().forEach(p -> b.set(o.poleVertex(p)));
        return b;
    }

    /** The current of a way as a signed sum by cable that encloses its wires, from the load outward. */
    private String sums(int[] way) {
        Map<String, Integer> sum = new TreeMap<>();
        for (int i = 1; i < way.length - 1; i++) {
            Vertex v = net.vertices.get(way[i]);
            if (v.kind == Kind.WIRE) {
                Cable c = net.house.cables().get(v.owner);
                if (c.kind().encloses()) {
                    sum.merge(c.name(), net.vertices.get(way[i - 1]).name.endsWith("@1") ? 1 : -1, Integer::sum);
                }
            }
        }
        sum.values().removeIf(n -> n == 0);
        return sum.toString();
    }

    private void parting(Load l) {
        Set<String> own = breakersOf(o.feeds.getOrDefault(l.id(), new TreeSet<>()));
        for (World w : o.positions(l.terminals())) {
            for (int[] pair : l.pairs()) {
                for (int side = 0; side < 2; side++) {
                    Reach a = o.reach(w, pair[side]);
                    Reach b = o.reach(w, pair[1 - side]);
                    if (!a.hot() || b.hot() || !b.neutral()) {
                        continue;
                    }
                    Set<String> out = new HashSet<>();
                    w.ways(pair[side], poles(a)).forEach(x -> out.add(sums(x)));
                    boolean together =
                            w.ways(pair[1 - side], b.neutralBars()).stream().anyMatch(x -> out.contains(sums(x)));
                    if (together) {
                        continue;
                    }
                    for (Island i : islands) {
                        if (on(i, b)) {
                            Set<String> others = breakersOf(i.poles);
                            others.addAll(hotsBesideLandings(i));
                            others.removeAll(own);
                            (others.isEmpty() ? i.elsewhere : i.borrowed).add(l.id());
                        }
                    }
                }
            }
        }
    }

    private final Map<Island, Set<String>> beside = new HashMap<>();

    /** Breakers whose hot runs in a home-run cable of the island. */
    private Set<String> hotsBesideLandings(Island i) {
        return beside.computeIfAbsent(i, x -> {
            Set<String> cables = new HashSet<>();
            for (int landing : i.landings.values()) {
                for (int n : net.next[landing]) {
                    if (net.vertices.get(n).kind == Kind.WIRE_END) {
                        cables.add(net.vertices.get(n).owner);
                    }
                }
            }
            Set<String> poles = new TreeSet<>();
            for (Vertex v : net.vertices) {
                if (v.kind == Kind.WIRE && cables.contains(v.owner)) {
                    o.positions(List.of(v.id))
                            .forEach(w -> poles.addAll(o.reach(w, v.id).poles()));
                }
            }
            return breakersOf(poles);
        });
    }

    private Set<String> breakersOf(Iterable<String> poles) {
        Set<String> out = new TreeSet<>();
        for (String p : poles) {
            Integer v = net.byName.get("pole " + p);
            out.add(v == null ? p : net.vertices.get(v).owner);
        }
        return out;
    }

    private TreeSet<String> polesOf(Iterable<String> loads) {
        TreeSet<String> out = new TreeSet<>();
        loads.forEach(l -> out.addAll(o.feeds.getOrDefault(l, new TreeSet<>())));
        return out;
    }

    private void sharing(Island i) {
        if (!i.borrowed.isEmpty()) {
            o.facts.crossing(CrossingKind.BORROWED, i.id(), i.poles, i.borrowed);
        }
        if (!i.elsewhere.isEmpty()) {
            o.facts.crossing(CrossingKind.RETURN_IN_ANOTHER_CABLE, i.id(), polesOf(i.elsewhere), i.elsewhere);
        }
        if (i.landings.size() > 1 && breakersOf(i.poles).size() > 1) {
            o.facts.crossing(CrossingKind.ISLANDS_JOINED, i.id(), i.poles, i.loads);
            return;
        }
        TreeSet<String> together = new TreeSet<>(i.loads);
        together.removeAll(i.borrowed);
        together.removeAll(i.elsewhere);
        TreeSet<String> poles = polesOf(together);
        if (poles.size() < 2) {
            return;
        }
        Set<String> breakers = breakersOf(poles);
        CrossingKind kind;
        if (oneLeg(poles)) {
            kind = CrossingKind.SHARED_ON_ONE_LEG;
        } else if (breakers.size() == 1 || oneGroup(breakers)) {
            kind = CrossingKind.MULTIWIRE;
        } else {
            kind = CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT;
        }
        o.facts.crossing(kind, i.id(), poles, together);
    }

    private boolean oneLeg(TreeSet<String> poles) {
        Feeders all = o.feeders(World.with(net, World.ALL));
        for (String p : poles) {
            for (String q : poles) {
                if (p.compareTo(q) < 0) {
                    Set<String> both = new TreeSet<>(o.sourcesOf(all, p));
                    both.retainAll(o.sourcesOf(all, q));
                    if (!both.isEmpty()) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private boolean oneGroup(Set<String> breakers) {
        return breakers.stream().allMatch(net.breakers::containsKey)
                && o.removals.together(breakers.iterator().next()).containsAll(breakers);
    }

    private void across(Load l) {
        for (World w : o.positions(l.terminals())) {
            Map<Integer, List<int[]>> ways = new TreeMap<>();
            boolean live = false;
            for (int t : l.terminals()) {
                Reach r = o.reach(w, t);
                live |= r.hot();
                if (r.hot() || r.neutral()) {
                    ways.put(t, w.ways(t, r.hot() ? poles(r) : r.neutralBars()));
                }
            }
            if (!live) {
                continue;
            }
            for (Protector p : o.protections.all) {
                boolean senses = p.function() == Protection.GROUND_FAULT
                        || p.function() == Protection.ARC_FAULT && p.neutralToo();
                if (!senses) {
                    continue;
                }
                List<int[]> every = ways.values().stream().flatMap(List::stream).toList();
                Set<Integer> how = new HashSet<>();
                every.forEach(x -> how.add(o.protections.passes(x, p)));
                if (how.size() > 1) {
                    o.facts.put(
                            "crossing ACROSS_PROTECTION " + p.by().substring(p.by().indexOf(' ') + 1) + " load "
                                    + l.id(),
                            "");
                }
            }
        }
    }

    private void neutralToGround() {
        World w = World.leversOpen(net);
        for (Panel p : net.house.panels().values()) {
            boolean main = o.bondBars.contains(net.at(p.name() + ".n"));
            if (!main && (p.bonded() || net.strapped.contains(p.name()))) {
                o.facts.put("neutral-to-ground " + p.name(), "");
            }
            for (Vertex v : net.vertices) {
                if (v.landing && v.owner.equals(p.name()) && onNeutral(v) && !main && o.groundOnly(w.flood(v.id))) {
                    o.facts.put("neutral-to-ground " + p.name(), "");
                }
            }
            p.joints().forEach(j -> meets(w, p.name(), j));
        }
        for (Box b : net.house.boxes().values()) {
            b.joints().forEach(j -> meets(w, b.name(), j));
        }
    }

    private void meets(World w, String box, Joint j) {
        if (j.members().stream().anyMatch(m -> m instanceof Ref.PanelTerminal)) {
            return;
        }
        String first = j.members().stream().map(Ref::said).sorted().findFirst().orElseThrow();
        BitSet gone = new BitSet();
        gone.set(net.at("joint " + box + ":" + first));
        if (o.isGround(w.flood(net.at("joint " + box + ":" + first)))) {
            return;
        }
        World without = w.without(gone);
        boolean ground = false;
        boolean neutral = false;
        for (Ref m : j.members()) {
            if (m instanceof Ref.BoxMetal) {
                ground = true;
            } else if (m instanceof Ref.DeviceTerminal t) {
                Vertex v = net.vertices.get(net.at(t.device() + "." + t.terminal()));
                ground |= v.groundTerminal;
                neutral |= net.devices.get(t.device()).kind().terminals().stream()
                        .anyMatch(x -> x.name().equals(t.terminal()) && x.role() == DeviceKind.Role.NEUTRAL);
            } else if (m instanceof Ref.WireEnd e) {
                Reach r = o.reach(without, net.at(e.cable() + "." + e.wire() + "@" + (e.end() + 1)));
                boolean toGround = touchesGround(r);
                boolean toBar = r.seen().stream().anyMatch(v -> net.vertices.get(v).kind == Kind.NEUTRAL_BAR);
                boolean toLoad = r.seen().stream()
                        .mapToObj(net.vertices::get)
                        .anyMatch(v -> v.loadTerminal || v.neutralTerminal);
                ground |= toGround && !toBar && !toLoad;
                neutral |= toBar && !toGround;
            }
        }
        if (ground && neutral) {
            o.facts.put("neutral-to-ground " + box, "");
        }
    }

    private boolean touchesGround(Reach r) {
        return !r.groundBars().isEmpty()
                || r.seen().stream()
                        .mapToObj(net.vertices::get)
                        .anyMatch(v -> v.groundTerminal || v.kind == Kind.METAL);
    }
}
