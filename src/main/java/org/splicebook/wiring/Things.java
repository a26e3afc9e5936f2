package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/** What can be lost, and which vertices go with it. */
final class Things {
    /** One way of losing one thing. */
    @SuppressWarnings("ArrayRecordComponent") // vertices, never compared
    record Lossy(LossMode mode, Thing thing, int[] vertices) {}

    private final Net net;
    private final List<Lossy> all = new ArrayList<>();

    private Things(Net net) {
        this.net = net;
    }

    /** {@return every loss that design ruling 5 names, thing by thing} */
    static List<Lossy> losses(Net net) {
        Things t = new Things(net);
        t.sources();
        net.house.panels().values().forEach(t::panel);
        net.house.boxes().values().forEach(t::box);
        t.cables();
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.JOINT) {
                t.add(LossMode.JOINT_LOST, v);
            } else if (net.kind[v] == Net.Kind.WIRE_END) {
                t.add(LossMode.WIRE_END_LOST, v);
            }
        }
        return t.all;
    }

    private void add(LossMode mode, ThingKind kind, String name, java.util.Collection<Integer> vertices) {
        if (!vertices.isEmpty()) {
            all.add(new Lossy(mode, new Thing(kind, name), Regions.ints(vertices)));
        }
    }

    private void add(LossMode mode, int vertex) {
        all.add(new Lossy(mode, net.thing(vertex), new int[] {vertex}));
    }

    private void sources() {
        for (Source s : net.house.sources().values()) {
            add(LossMode.SOURCE_LOST, ThingKind.SOURCE, s.name(), sourceVertices(net, s));
        }
    }

    static List<Integer> sourceVertices(Net net, Source s) {
        return Stream.concat(s.system().poles().stream().map(p -> p.terminal()), Stream.of("n", "g"))
                .map(t -> net.byTerminal.get(s.name() + "." + t))
                .filter(java.util.Objects::nonNull)
                .toList();
    }

    private void panel(Panel p) {
        List<Integer> main = mainPoles(net, p.name());
        if (!main.isEmpty()) {
            add(LossMode.OFF_BY_HAND, ThingKind.MAIN, p.name(), main);
            if (p.main() != null && p.main().type() == OvercurrentType.BREAKER) {
                add(LossMode.TRIPS, ThingKind.MAIN, p.name(), main);
            }
            if (main.size() > 1) {
                for (int v : main) {
                    add(LossMode.ONE_POLE_OPEN, ThingKind.POLE, net.name(v), List.of(v));
                }
            }
        }
        Thrown thrown = new Thrown(p);
        for (Breaker b : p.breakers().values()) {
            breaker(p, b, thrown);
        }
    }

    private void breaker(Panel p, Breaker b, Thrown thrown) {
        String name = p.name() + "." + b.key();
        List<Integer> off = new ArrayList<>();
        thrown.with(b).forEach(other -> off.addAll(opened(p, other)));
        add(LossMode.OFF_BY_HAND, ThingKind.BREAKER, name, off);
        if (b.type() == OvercurrentType.BREAKER && (b.commonTrip() || b.spaces().size() == 1)) {
            add(LossMode.TRIPS, ThingKind.BREAKER, name, opened(p, b));
        }
        for (int v : poles(net, p, b)) {
            add(LossMode.ONE_POLE_OPEN, ThingKind.POLE, net.name(v), List.of(v));
        }
    }

    /** A breaker's poles, and its neutral link where it is known to open it. */
    private List<Integer> opened(Panel p, Breaker b) {
        List<Integer> vertices = new ArrayList<>(poles(net, p, b));
        Integer neutral = net.byTerminal.get(p.name() + "/neutral/" + b.key());
        if (neutral != null && Boolean.TRUE.equals(b.opensNeutral())) {
            vertices.add(neutral);
        }
        return vertices;
    }

    static List<Integer> poles(Net net, Panel p, Breaker b) {
        return b.spaces().stream()
                .map(s -> net.byTerminal.get(p.name() + "/pole/" + s))
                .filter(java.util.Objects::nonNull)
                .toList();
    }

    static List<Integer> mainPoles(Net net, String panel) {
        return Stream.of("main-1", "main-2", "main-3")
                .map(m -> net.byTerminal.get(panel + "." + m))
                .filter(java.util.Objects::nonNull)
                .toList();
    }

    private void box(Box box) {
        for (Device d : box.devices().values()) {
            Net.Placed placed = Objects.requireNonNull(net.devices.get(d.name()));
            List<Integer> own =
                    IntStream.range(placed.first(), placed.end()).boxed().toList();
            List<Integer> off = new ArrayList<>(own);
            int joint = Objects.requireNonNull(net.firstJoint.get(box.name()));
            for (Joint j : box.joints()) {
                if (holds(d, j)) {
                    off.add(joint);
                }
                joint++;
            }
            add(LossMode.DEVICE_OFF, ThingKind.DEVICE, d.name(), off);
            add(LossMode.SWITCH_FAILS, ThingKind.DEVICE, d.name(), links(d, DeviceKind.When.LEVER));
            if (d.kind().guard() != null) {
                add(LossMode.GUARD_OPENS, ThingKind.DEVICE, d.name(), opens(d));
            }
        }
    }

    /** Whether taking the device off parts the joint. */
    private static boolean holds(Device d, Joint j) {
        List<Ref> judged =
                j.hold() == Joint.Hold.DEVICE ? j.holders() : j.hold() == Joint.Hold.UNSAID ? j.members() : List.of();
        return judged.stream()
                .anyMatch(r -> r instanceof Ref.DeviceTerminal t && t.device().equals(d.name()));
    }

    private List<Integer> links(Device d, DeviceKind.When when) {
        List<Integer> found = new ArrayList<>();
        for (DeviceKind.Link l : d.kind().links()) {
            if (l.when() == when) {
                found.addAll(between(d, l.a(), l.b()));
            }
        }
        return found;
    }

    private List<Integer> opens(Device d) {
        List<Integer> found = new ArrayList<>();
        for (DeviceKind.Link l : d.kind().links()) {
            if (l.when() == DeviceKind.When.GUARDED
                    && d.kind().guard() != null
                    && d.kind().guard().opens().contains(l.a())) {
                found.addAll(between(d, l.a(), l.b()));
            }
        }
        return found;
    }

    private List<Integer> between(Device d, String a, String b) {
        return between(net, d.name() + "." + a, d.name() + "." + b);
    }

    /** The links between two terminals of a device. */
    static List<Integer> between(Net net, String a, String b) {
        int va = net.terminal(a);
        int vb = net.terminal(b);
        List<Integer> found = new ArrayList<>();
        if (va < 0 || vb < 0) {
            return found;
        }
        for (int i = net.start[va]; i < net.start[va + 1]; i++) {
            int v = net.adjacent[i];
            if (net.kind[v] == Net.Kind.LINK) {
                for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                    if (net.adjacent[k] == vb) {
                        found.add(v);
                    }
                }
            }
        }
        return found;
    }

    private void cables() {
        for (Cable c : net.house.cables().values()) {
            Net.Wires of = Objects.requireNonNull(net.wires.get(c.name()));
            List<Integer> wires = IntStream.range(0, c.wires().size())
                    .mapToObj(i -> of.first() + 3 * i)
                    .toList();
            add(LossMode.CABLE_CUT, ThingKind.CABLE, c.name(), wires);
        }
    }

    /** {@return mains and breakers, with their poles} */
    static List<Lossy> overcurrent(Net net) {
        Things t = new Things(net);
        for (Panel p : net.house.panels().values()) {
            t.add(LossMode.TRIPS, ThingKind.MAIN, p.name(), mainPoles(net, p.name()));
            for (Breaker b : p.breakers().values()) {
                t.add(LossMode.TRIPS, ThingKind.BREAKER, p.name() + "." + b.key(), poles(net, p, b));
            }
        }
        return t.all;
    }

    /** {@return devices, with what they conduct by} */
    static List<Lossy> devices(Net net) {
        Things t = new Things(net);
        for (Box box : net.house.boxes().values()) {
            for (Device d : box.devices().values()) {
                t.add(
                        LossMode.DEVICE_OFF,
                        ThingKind.DEVICE,
                        d.name(),
                        IntStream.of(Objects.requireNonNull(net.devices.get(d.name()))
                                        .links())
                                .boxed()
                                .toList());
            }
        }
        return t.all;
    }

    /** {@return the things that a load point may rely on, as whole things} */
    static List<Lossy> reliable(Net net) {
        Things t = new Things(net);
        t.sources();
        t.all.addAll(overcurrent(net));
        t.all.addAll(devices(net));
        for (int v = 0; v < net.size; v++) {
            switch (net.kind[v]) {
                case JOINT -> t.add(LossMode.JOINT_LOST, v);
                case WIRE -> t.add(LossMode.CABLE_CUT, v);
                case WIRE_END -> t.add(LossMode.WIRE_END_LOST, v);
                default -> {}
            }
        }
        return t.all;
    }
}
