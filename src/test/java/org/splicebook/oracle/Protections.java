package org.splicebook.oracle;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.oracle.Oracle.Reach;
import org.splicebook.oracle.Oracle.Seen;
import org.splicebook.oracle.Oracle.Tally;
import org.splicebook.oracle.Removals.Removal;
import org.splicebook.record.Breaker;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.DeviceKind.Guard;
import org.splicebook.record.Protection;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/** What protects a load point, by taking each sensor away and flooding again. */
final class Protections {
    private final Oracle o;
    private final Netlist net;
    final List<Protector> all;

    Protections(Oracle o) {
        this.o = o;
        this.net = o.net;
        this.all = findProtectors();
    }

    /** A thing that protects: its sensor's vertices and which conductors it watches. */
    record Protector(Protection function, String by, BitSet sensor, boolean neutralToo) {}

    private List<Protector> findProtectors() {
        List<Protector> out = new ArrayList<>();
        for (Map.Entry<String, Breaker> e : net.breakers.entrySet()) {
            BitSet poles = o.removals.polesOf(e.getKey());
            String by = ThingKind.BREAKER + " " + e.getKey();
            out.add(new Protector(Protection.OVERCURRENT, by, poles, false));
            BitSet sensor = (BitSet) poles.clone();
            sensor.or(o.removals.neutralOf(e.getKey()));
            for (Protection p : e.getValue().protects()) {
                out.add(new Protector(
                        p,
                        by,
                        sensor,
                        p == Protection.GROUND_FAULT || e.getValue().neutralTerminal()));
            }
        }
        for (Removal r : o.removals.all) {
            if (r.mode() == null && r.thing().startsWith(ThingKind.MAIN + " ")) {
                out.add(new Protector(Protection.OVERCURRENT, r.thing(), r.gone(), false));
            }
        }
        net.devices.forEach((name, d) -> {
            Guard g = d.kind().guard();
            if (g != null) {
                BitSet sensor = new BitSet();
                net.vertices.stream()
                        .filter(v -> v.kind == Kind.LINK && v.owner.equals(name))
                        .filter(v -> v.when == DeviceKind.When.GUARDED)
                        .forEach(v -> sensor.set(v.id));
                for (Protection p : g.functions()) {
                    out.add(new Protector(
                            p,
                            ThingKind.DEVICE + " " + name,
                            sensor,
                            p == Protection.GROUND_FAULT || g.sensesNeutral()));
                }
            }
        });
        return out;
    }

    void find(Load l, List<World> worlds, List<Seen> before) {
        int live = (int) before.stream().filter(Seen::live).count();
        Tally tally = new Tally();
        Map<String, Integer> nearness = new TreeMap<>();
        List<Protector> all = this.all;
        for (int i = 0; i < worlds.size(); i++) {
            Seen s = before.get(i);
            World w = worlds.get(i);
            if (!s.live()) {
                continue;
            }
            Map<Integer, List<Protector>> hots = new TreeMap<>();
            for (Protector p : all) {
                if (!o.matters(p.sensor(), s.all())) {
                    continue;
                }
                World without = w.without(p.sensor());
                List<Integer> dead = new ArrayList<>();
                boolean everyHot = true;
                boolean everyNeutral = true;
                for (Map.Entry<Integer, Reach> e : s.load().entrySet()) {
                    Reach after = o.reach(without, e.getKey());
                    if (e.getValue().hot()) {
                        everyHot &= !after.hot();
                        if (!after.hot()) {
                            dead.add(e.getKey());
                        }
                    } else if (e.getValue().neutral()) {
                        everyNeutral &= !after.neutral();
                    }
                }
                boolean holds = p.function() == Protection.OVERCURRENT
                        ? !dead.isEmpty()
                        : everyHot && (everyNeutral && oneDirection(w, s, p) || !p.neutralToo());
                if (holds) {
                    tally.add(l.id() + " " + p.function() + " " + p.by());
                    dead.forEach(
                            t -> hots.computeIfAbsent(t, x -> new ArrayList<>()).add(p));
                }
            }
            hots.forEach((t, list) -> {
                for (Protector p : list) {
                    int nearer = (int) list.stream()
                            .filter(q -> q != p && q.function() == p.function())
                            .filter(q ->
                                    !towardsSource(w.without(q.sensor()), t).intersects(p.sensor()))
                            .count();
                    nearness.merge(l.id() + " " + p.function() + " " + p.by(), nearer, Math::min);
                }
            });
        }
        tally.forEach((line, n) -> o.facts.put("protected " + line, n == live ? Sureness.MUST : Sureness.MAY));
        nearness.forEach((line, n) -> o.facts.put("nearness " + line, n));
    }

    /** Hot and neutral swapped at one end of a sensor only: it sees their currents add up. */
    private boolean oneDirection(World w, Seen s, Protector p) {
        if (!p.by().startsWith(ThingKind.DEVICE + " ")) {
            return true;
        }
        Set<Integer> how = new TreeSet<>();
        s.load().forEach((t, r) -> {
            if (r.hot() || r.neutral()) {
                BitSet goals = (BitSet) r.neutralBars().clone();
                if (r.hot()) {
                    goals.clear();
                    r.poles().forEach(x -> goals.set(o.poleVertex(x)));
                }
                w.ways(t, goals).forEach(x -> how.add(passes(x, p)));
            }
        });
        return how.size() == 1;
    }

    /** {@return how a way from a load passes a sensor: 0 not at all, 1 from load to line, -1 from line to load} */
    int passes(int[] way, Protector p) {
        for (int i = 1; i < way.length; i++) {
            Vertex v = net.vertices.get(way[i]);
            if (p.sensor().get(v.id)) {
                boolean fromLine =
                        v.kind == Kind.LINK && net.vertices.get(way[i - 1]).name.equals(v.owner + "." + v.line);
                return fromLine ? -1 : 1;
            }
        }
        return 0;
    }

    /** What is reached from a terminal when buses are gone through, and beyond them feeders. */
    private BitSet towardsSource(World w, int terminal) {
        BitSet seen = w.flood(terminal);
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        seen.stream().filter(v -> net.vertices.get(v).kind == Kind.BUS).forEach(queue::add);
        while (!queue.isEmpty()) {
            int v = queue.poll();
            for (int n : net.next[v]) {
                Kind k = net.vertices.get(n).kind;
                if ((o.feederPart.get(n) || k == Kind.BUS) && !seen.get(n) && w.conducts(n)) {
                    seen.set(n);
                    queue.add(n);
                }
            }
        }
        return seen;
    }
}
