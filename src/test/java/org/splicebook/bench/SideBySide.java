package org.splicebook.bench;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/** Big houses: random ones side by side under one record, the names of each with a prefix of its own. */
final class SideBySide {
    private final Map<String, Source> sources = new LinkedHashMap<>();
    private final Map<String, Panel> panels = new LinkedHashMap<>();
    private final Map<String, Cable> cables = new LinkedHashMap<>();
    private final Map<String, Box> boxes = new LinkedHashMap<>();
    private int houses;

    private SideBySide() {}

    /** {@return random houses of that shape side by side, as many as it takes to have at least so many wires} */
    static House ofWires(int wires, Shape shape) {
        SideBySide all = new SideBySide();
        for (int seed = 1; all.wires() < wires; seed++) {
            all.add(RandomHouses.house(seed, shape));
        }
        return all.house();
    }

    private int wires() {
        return cables.values().stream().mapToInt(c -> c.wires().size()).sum();
    }

    private House house() {
        return new House(
                "side-by-side",
                null,
                null,
                Basis.SEEN,
                null,
                null,
                EnumSet.allOf(Complete.class),
                sources,
                Map.of(),
                panels,
                cables,
                boxes,
                List.of(),
                List.of(),
                Provenance.NONE);
    }

    private void add(House house) {
        String prefix = "h" + ++houses + "-";
        house.sources().values().forEach(s -> sources.put(prefix + s.name(), source(prefix, s)));
        house.panels().values().forEach(p -> panels.put(prefix + p.name(), panel(prefix, p)));
        house.cables().values().forEach(c -> cables.put(prefix + c.name(), cable(prefix, c)));
        house.boxes().values().forEach(b -> boxes.put(prefix + b.name(), box(prefix, b)));
    }

    private static List<String> named(String prefix, Collection<String> names) {
        return names.stream().map(n -> prefix + n).toList();
    }

    private static @Nullable String named(String prefix, @Nullable String name) {
        return name == null ? null : prefix + name;
    }

    private static List<Joint> joints(String prefix, List<Joint> joints) {
        List<Joint> named = new ArrayList<>();
        for (Joint j : joints) {
            named.add(new Joint(refs(prefix, j.members()), j.hold(), refs(prefix, j.holders()), j.by(), j.about()));
        }
        return named;
    }

    private static List<Ref> refs(String prefix, List<Ref> refs) {
        return refs.stream().map(r -> ref(prefix, r)).toList();
    }

    private static Ref ref(String prefix, Ref ref) {
        if (ref instanceof Ref.WireEnd w) {
            return new Ref.WireEnd(prefix + w.cable(), w.wire(), w.end(), w.endSaid());
        }
        if (ref instanceof Ref.DeviceTerminal d) {
            return new Ref.DeviceTerminal(prefix + d.device(), d.terminal());
        }
        if (ref instanceof Ref.SourceTerminal s) {
            return new Ref.SourceTerminal(prefix + s.source(), s.terminal());
        }
        return ref;
    }

    private static Source source(String prefix, Source s) {
        return new Source(
                prefix + s.name(),
                s.kind(),
                s.system(),
                s.rating(),
                named(prefix, s.bond()),
                named(prefix, s.at()),
                s.from(),
                s.about());
    }

    private static Panel panel(String prefix, Panel p) {
        return new Panel(
                prefix + p.name(),
                null,
                named(prefix, p.supply()),
                p.spaces(),
                p.rating(),
                p.main(),
                p.breakers(),
                p.ties(),
                p.pullOuts(),
                p.exclusive(),
                p.legs(),
                p.buses(),
                p.bonded(),
                p.neutralFuse(),
                joints(prefix, p.joints()),
                p.complete(),
                p.about());
    }

    private static Cable cable(String prefix, Cable c) {
        List<CableEnd> ends = c.ends().stream()
                .map(e -> e instanceof CableEnd.At at ? new CableEnd.At(prefix + at.box()) : e)
                .toList();
        return new Cable(
                prefix + c.name(),
                c.kind(),
                c.shorthand(),
                c.wires(),
                ends,
                named(prefix, c.through()),
                c.length(),
                c.about());
    }

    private static Box box(String prefix, Box b) {
        Map<String, Device> devices = new LinkedHashMap<>();
        b.devices().values().forEach(d -> devices.put(prefix + d.name(), device(prefix, d)));
        return new Box(
                prefix + b.name(),
                null,
                b.shell(),
                b.cableEntries(),
                b.hidden(),
                devices,
                joints(prefix, b.joints()),
                b.complete(),
                b.about());
    }

    private static Device device(String prefix, Device d) {
        return new Device(
                prefix + d.name(),
                d.kind(),
                d.rating(),
                d.tabs(),
                d.unused(),
                d.load(),
                d.watts(),
                d.label(),
                d.about());
    }
}
