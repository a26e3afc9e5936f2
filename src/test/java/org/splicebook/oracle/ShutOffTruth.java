package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Source;

/**
 * What is live in the house as it is, with some breakers open: flooded from the sources through wires, every position of every switch,
 * loads and transformers, up to the bars that a source's neutral still holds. Shares no code with the shut-off.
 */
final class ShutOffTruth {
    final Netlist net;
    private final House house;
    private final List<int[]> across = new ArrayList<>();
    private final Set<String> bonded = new HashSet<>();

    ShutOffTruth(House house) {
        this.house = house;
        this.net = new Netlist(house);
        across.addAll(net.deviceLoadPairs);
        across.addAll(net.asLoad);
        net.devices.values().forEach(this::windings);
        house.panels().values().stream().filter(p -> p.bonded()).forEach(p -> bonded.add(p.name()));
        house.sources().values().stream()
                .map(Source::bond)
                .filter(java.util.Objects::nonNull)
                .forEach(bonded::add);
        bonded.addAll(net.strapped);
    }

    private void windings(Device d) {
        if (d.kind().family() != DeviceKind.Family.TRANSFORMER) {
            return;
        }
        for (String primary : List.of("hot", "neutral")) {
            for (String secondary : List.of("secondary-1", "secondary-2")) {
                across.add(new int[] {net.at(d.name() + "." + primary), net.at(d.name() + "." + secondary)});
            }
        }
    }

    /** {@return the vertices in a box that a hand may come to} */
    Set<Integer> contents(String box) {
        Set<Integer> in = new LinkedHashSet<>();
        house.cables().values().forEach(c -> {
            for (int end = 0; end < 2; end++) {
                if (box.equals(c.ends().get(end).boxOrNull())) {
                    int n = end + 1;
                    c.wires().forEach(w -> in.add(net.at(c.name() + "." + w.name() + "@" + n)));
                }
            }
        });
        house.boxes()
                .get(box)
                .devices()
                .values()
                .forEach(d -> d.kind().terminals().forEach(t -> in.add(net.at(d.name() + "." + t.name()))));
        Integer metal = net.byName.get(box + ".box");
        if (metal != null) {
            in.add(metal);
        }
        in.addAll(joints(box));
        return in;
    }

    private List<Integer> joints(String box) {
        return net.vertices.stream()
                .filter(v -> v.kind == Kind.JOINT && v.owner.equals(box))
                .map(v -> v.id)
                .toList();
    }

    /** {@return the poles of breakers ({@code main.2+4}) and of mains (the panel's name)} */
    BitSet poles(Set<String> thrown) {
        BitSet poles = new BitSet();
        for (Vertex v : net.vertices) {
            if ((v.kind == Kind.POLE || v.kind == Kind.MAIN_POLE) && thrown.contains(v.owner)) {
                poles.set(v.id);
            }
        }
        return poles;
    }

    /** {@return what is still live in a box, in some variant: nothing lifted, each wire end lifted in turn, all apart} */
    Set<String> stillLive(String box, Set<String> thrown) {
        Set<Integer> in = contents(box);
        BitSet poles = poles(thrown);
        Set<String> live = new TreeSet<>();
        BitSet apart = (BitSet) poles.clone();
        joints(box).forEach(apart::set);
        tell(in, liveWith(apart, -1, true), " with all apart", live);
        tell(in, liveWith(poles, -1, true), "", live);
        for (int v : in) {
            if (net.vertices.get(v).kind == Kind.WIRE_END) {
                tell(in, liveWith(poles, v, true), " with " + net.vertices.get(v).name + " lifted", live);
            }
        }
        return live;
    }

    private void tell(Set<Integer> in, BitSet live, String how, Set<String> out) {
        in.stream().filter(live::get).forEach(v -> out.add(net.vertices.get(v).name + how));
    }

    /** {@return the breakers that lose something in a box its voltage, over wires alone, when thrown} */
    Set<String> puttingOff(String box) {
        Set<Integer> in = contents(box);
        BitSet before = liveWith(new BitSet(), -1, false);
        Set<String> found = new TreeSet<>();
        for (String b : net.breakers.keySet()) {
            BitSet after = liveWith(poles(Set.of(b)), -1, false);
            if (in.stream().anyMatch(v -> before.get(v) && !after.get(v))) {
                found.add(b);
            }
        }
        return found;
    }

    /** {@return the breakers that a walk from a box meets first, loads conducting} */
    Set<String> meeting(String box) {
        BitSet gone = new BitSet();
        joints(box).forEach(gone::set);
        BitSet held = held(gone, -1);
        Set<Integer> in = contents(box);
        BitSet seen = flood(in.stream().mapToInt(i -> i).toArray(), new BitSet(), -1, held, true, true);
        Set<String> found = new TreeSet<>();
        seen.stream()
                .mapToObj(net.vertices::get)
                .filter(v -> v.kind == Kind.POLE)
                .forEach(v -> found.add(v.owner));
        return found;
    }

    /** {@return what is live with these vertices taken away and this wire end out of its joint} */
    BitSet liveWith(BitSet gone, int lifted, boolean loads) {
        int[] sources = net.vertices.stream()
                .filter(Feeders::isHotSource)
                .mapToInt(v -> v.id)
                .toArray();
        return flood(sources, gone, lifted, held(gone, lifted), loads, false);
    }

    private BitSet flood(int[] from, BitSet gone, int lifted, BitSet held, boolean loads, boolean stopAtPoles) {
        BitSet seen = new BitSet();
        List<Integer> queue = new ArrayList<>();
        for (int v : from) {
            if (!gone.get(v)) {
                seen.set(v);
                queue.add(v);
            }
        }
        for (int i = 0; i < queue.size(); i++) {
            int v = queue.get(i);
            Vertex x = net.vertices.get(v);
            if (held.get(v) || (stopAtPoles && (x.kind == Kind.POLE || x.kind == Kind.MAIN_POLE))) {
                continue;
            }
            List<Integer> next = new ArrayList<>();
            for (int u : net.next[v]) {
                if (!parted(lifted, v, u)) {
                    next.add(u);
                }
            }
            for (int[] pair : loads ? across : List.<int[]>of()) {
                if (pair[0] == v) {
                    next.add(pair[1]);
                } else if (pair[1] == v) {
                    next.add(pair[0]);
                }
            }
            bond(x, next);
            for (int u : next) {
                if (!seen.get(u) && !gone.get(u)) {
                    seen.set(u);
                    queue.add(u);
                }
            }
        }
        return seen;
    }

    private boolean parted(int lifted, int a, int b) {
        return (a == lifted && net.vertices.get(b).kind == Kind.JOINT)
                || (b == lifted && net.vertices.get(a).kind == Kind.JOINT);
    }

    private void bond(Vertex x, List<Integer> next) {
        boolean bar = x.kind == Kind.NEUTRAL_BAR || x.kind == Kind.GROUND_BAR;
        if (bar && bonded.contains(x.owner)) {
            next.add(net.at(x.owner + (x.kind == Kind.NEUTRAL_BAR ? ".g" : ".n")));
        }
    }

    /** The bars that hang on a source's neutral or ground with every switch open. */
    private BitSet held(BitSet gone, int lifted) {
        BitSet seen = new BitSet();
        List<Integer> queue = new ArrayList<>();
        for (Vertex v : net.vertices) {
            if (v.kind == Kind.SOURCE && (v.name.endsWith(".n") || v.name.endsWith(".g")) && !gone.get(v.id)) {
                seen.set(v.id);
                queue.add(v.id);
            }
        }
        for (int i = 0; i < queue.size(); i++) {
            Vertex x = net.vertices.get(queue.get(i));
            List<Integer> next = new ArrayList<>();
            for (int u : net.next[x.id]) {
                if (!parted(lifted, x.id, u)) {
                    next.add(u);
                }
            }
            bond(x, next);
            for (int u : next) {
                Vertex y = net.vertices.get(u);
                boolean carries = y.conditions.isEmpty()
                        && y.kind != Kind.POLE
                        && y.kind != Kind.MAIN_POLE
                        && y.kind != Kind.BUS
                        && !Feeders.isHotSource(y);
                if (carries && !seen.get(u) && !gone.get(u)) {
                    seen.set(u);
                    queue.add(u);
                }
            }
        }
        BitSet bars = new BitSet();
        seen.stream()
                .filter(v -> {
                    Vertex x = net.vertices.get(v);
                    return World.cuts(x) || x.kind == Kind.SOURCE;
                })
                .forEach(bars::set);
        return bars;
    }
}
