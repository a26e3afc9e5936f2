package org.splicebook.wiring.evidence;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.wiring.MayNet;

/** Finds what sightings name: wires, wire ends, terminals, load points, breakers, devices. */
final class Points {
    private final House house;
    private final MayNet net;
    private final Map<String, Integer> wires = new HashMap<>();
    private final Map<String, MayNet.LoadPoint> loadPoints = new HashMap<>();
    private final Map<String, Device> devices = new HashMap<>();
    private final Map<String, MayNet.Handle> handles = new HashMap<>();

    Points(House house, MayNet net) {
        this.house = house;
        this.net = net;
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.WIRE || net.kind(v) == MayNet.Kind.WIRE_END) {
                wires.put(net.name(v), v);
            }
        }
        net.loadPoints().forEach(lp -> loadPoints.put(lp.id(), lp));
        for (Box b : house.boxes().values()) {
            devices.putAll(b.devices());
        }
        for (MayNet.Handle h : net.handles()) {
            h.breakers().forEach(b -> handles.put(h.isMain() ? b + ".main" : b, h));
            h.poles().forEach(p -> handles.putIfAbsent(net.name(p), h));
        }
    }

    /** {@return the load point of that id, or null} */
    MayNet.@Nullable LoadPoint loadPoint(String point) {
        return loadPoints.get(point);
    }

    @Nullable
    Device device(String name) {
        return devices.get(name);
    }

    /** {@return the node of a wire, wire end or terminal, or -1} */
    int conductor(String point) {
        Integer wire = wires.get(point);
        if (wire != null) {
            return wire;
        }
        int dot = point.indexOf('.');
        Device d = dot < 0 ? null : devices.get(point.substring(0, dot));
        if (d != null) {
            String said = point.substring(dot + 1);
            DeviceKind.Alias alias = d.kind().aliases().get(said);
            return net.terminal(d.name() + "." + (alias == null ? said : alias.terminal()));
        }
        return dot >= 0 && house.panels().containsKey(point.substring(0, dot)) ? net.terminal(point) : -1;
    }

    /** {@return what throws that breaker, named by key or space, or that main ({@code main.main}); null for anything else} */
    MayNet.@Nullable Handle handle(String breaker) {
        return handles.get(breaker);
    }

    /** {@return the handles of these, or null if one of them is no breaker} */
    @Nullable
    Set<MayNet.Handle> handlesOf(List<String> off) {
        Set<MayNet.Handle> found = new java.util.LinkedHashSet<>();
        for (String o : off) {
            MayNet.Handle h = handle(o);
            if (h == null) {
                return null;
            }
            found.add(h);
        }
        return found;
    }

    /** {@return every point that evidence speaks of: load points, and wire ends in a box or panel} */
    Set<String> all() {
        Set<String> names = new TreeSet<>(loadPoints.keySet());
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.WIRE_END && !net.box(v).isEmpty()) {
                names.add(net.name(v));
            }
        }
        return names;
    }

    /** {@return the nodes at which a point takes or brings current: a conductor's own, a load point's terminals} */
    List<Integer> nodes(String point) {
        MayNet.LoadPoint lp = loadPoints.get(point);
        if (lp != null) {
            return lp.pairs().stream().flatMap(List::stream).distinct().toList();
        }
        int v = conductor(point);
        return v < 0 ? List.of() : List.of(v);
    }
}
