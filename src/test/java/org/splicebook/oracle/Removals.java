package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.ThingKind;

/** Everything that can be taken away, as the vertices that go with it. */
final class Removals {
    /**
     * One thing to take away.
     *
     * @param mode how it is lost; null where it is taken away only to see what relies on it
     * @param thing its kind and name
     * @param gone the vertices that go
     */
    record Removal(@Nullable LossMode mode, String thing, BitSet gone) {}

    private final Netlist net;
    final List<Removal> all = new ArrayList<>();
    /** The same, those that take the same vertices together. */
    final Map<BitSet, List<Removal>> byGone = new LinkedHashMap<>();

    Removals(Netlist net) {
        this.net = net;
        reliance();
        breakers();
        devices();
        rest();
    }

    private BitSet where(Predicate<Vertex> p) {
        BitSet b = new BitSet();
        net.vertices.stream().filter(p).forEach(v -> b.set(v.id));
        return b;
    }

    private void add(@Nullable LossMode mode, ThingKind kind, String name, BitSet gone) {
        if (!gone.isEmpty()) {
            Removal r = new Removal(mode, kind + " " + name, gone);
            all.add(r);
            byGone.computeIfAbsent(gone, g -> new ArrayList<>()).add(r);
        }
    }

    private void reliance() {
        for (String s : net.house.sources().keySet()) {
            add(null, ThingKind.SOURCE, s, where(v -> v.kind == Kind.SOURCE && v.owner.equals(s)));
        }
        for (Panel p : net.house.panels().values()) {
            add(null, ThingKind.MAIN, p.name(), mainPoles(p.name()));
        }
        net.breakers.keySet().forEach(b -> add(null, ThingKind.BREAKER, b, polesOf(b)));
        net.devices
                .keySet()
                .forEach(d -> add(null, ThingKind.DEVICE, d, where(v -> v.kind == Kind.LINK && v.owner.equals(d))));
        for (Vertex v : net.vertices) {
            switch (v.kind) {
                case WIRE -> add(null, ThingKind.WIRE, v.name, only(v));
                case WIRE_END -> add(null, ThingKind.WIRE_END, v.name, only(v));
                case JOINT -> add(null, ThingKind.JOINT, v.name, only(v));
                default -> {}
            }
        }
    }

    private static BitSet only(Vertex v) {
        BitSet b = new BitSet();
        b.set(v.id);
        return b;
    }

    private BitSet mainPoles(String panel) {
        return where(v -> v.kind == Kind.MAIN_POLE && v.owner.equals(panel));
    }

    BitSet polesOf(String breaker) {
        return where(v -> v.kind == Kind.POLE && v.owner.equals(breaker));
    }

    BitSet neutralOf(String breaker) {
        return where(v -> v.kind == Kind.NEUTRAL_LINK && v.owner.equals(breaker));
    }

    /** {@return breakers that go off by hand together with one} */
    TreeSet<String> together(String breaker) {
        String panel = net.panelOfBreaker.get(breaker);
        Panel p = net.house.panels().get(panel);
        List<List<String>> groups = new ArrayList<>(p.ties());
        groups.addAll(p.pullOuts().values());
        TreeSet<String> off = new TreeSet<>(List.of(breaker));
        boolean more = true;
        while (more) {
            more = false;
            for (List<String> g : groups) {
                List<String> in = net.breakers.keySet().stream()
                        .filter(b -> net.panelOfBreaker.get(b).equals(panel))
                        .filter(b -> net.breakers.get(b).spaces().stream().anyMatch(g::contains))
                        .toList();
                if (in.stream().anyMatch(off::contains)) {
                    more |= off.addAll(in);
                }
            }
        }
        return off;
    }

    private void breakers() {
        net.breakers.forEach((name, b) -> {
            BitSet off = new BitSet();
            for (String t : together(name)) {
                off.or(polesOf(t));
                off.or(openedNeutral(t));
            }
            add(LossMode.OFF_BY_HAND, ThingKind.BREAKER, name, off);
            if (b.type() == OvercurrentType.BREAKER
                    && (b.commonTrip() || b.spaces().size() == 1)) {
                BitSet trips = polesOf(name);
                trips.or(openedNeutral(name));
                add(LossMode.TRIPS, ThingKind.BREAKER, name, trips);
            }
            for (String s : b.spaces()) {
                String pole = net.panelOfBreaker.get(name) + "." + s;
                add(LossMode.ONE_POLE_OPEN, ThingKind.POLE, pole, only(net.vertices.get(net.at("pole " + pole))));
            }
        });
        for (Panel p : net.house.panels().values()) {
            BitSet poles = mainPoles(p.name());
            add(LossMode.OFF_BY_HAND, ThingKind.MAIN, p.name(), poles);
            if (p.main() != null && p.main().type() == OvercurrentType.BREAKER) {
                add(LossMode.TRIPS, ThingKind.MAIN, p.name(), poles);
            }
            if (poles.cardinality() > 1) {
                poles.stream()
                        .mapToObj(net.vertices::get)
                        .forEach(v -> add(LossMode.ONE_POLE_OPEN, ThingKind.POLE, v.name, only(v)));
            }
        }
    }

    private BitSet openedNeutral(String breaker) {
        Breaker b = net.breakers.get(breaker);
        return Boolean.TRUE.equals(b.opensNeutral()) ? neutralOf(breaker) : new BitSet();
    }

    private void devices() {
        for (Device d : net.devices.values()) {
            DeviceKind k = d.kind();
            String name = d.name();
            if (k.guard() != null) {
                add(
                        LossMode.GUARD_OPENS,
                        ThingKind.DEVICE,
                        name,
                        where(v -> v.kind == Kind.LINK
                                && v.owner.equals(name)
                                && v.when == DeviceKind.When.GUARDED
                                && k.guard().opens().contains(v.line)));
            }
            add(
                    LossMode.SWITCH_FAILS,
                    ThingKind.DEVICE,
                    name,
                    where(v -> v.kind == Kind.LINK && v.owner.equals(name) && v.when == DeviceKind.When.LEVER));
            BitSet off = where(v -> (v.kind == Kind.LINK || v.kind == Kind.TERMINAL) && v.owner.equals(name));
            net.heldBy.getOrDefault(name, List.of()).forEach(off::set);
            add(LossMode.DEVICE_OFF, ThingKind.DEVICE, name, off);
        }
    }

    private void rest() {
        for (Vertex v : net.vertices) {
            if (v.kind == Kind.JOINT) {
                add(LossMode.JOINT_LOST, ThingKind.JOINT, v.name, only(v));
            }
        }
        for (int end : net.landedEnds) {
            Vertex v = net.vertices.get(end);
            add(LossMode.WIRE_END_LOST, ThingKind.WIRE_END, v.name, only(v));
        }
        for (String c : net.house.cables().keySet()) {
            add(LossMode.CABLE_CUT, ThingKind.CABLE, c, where(v -> v.kind == Kind.WIRE && v.owner.equals(c)));
        }
        for (String s : net.house.sources().keySet()) {
            add(LossMode.SOURCE_LOST, ThingKind.SOURCE, s, where(v -> v.kind == Kind.SOURCE && v.owner.equals(s)));
        }
    }
}
