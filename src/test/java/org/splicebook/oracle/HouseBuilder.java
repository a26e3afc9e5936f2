package org.splicebook.oracle;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SubBus;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** Puts a house together; references are written as in a house file and resolved against the box they stand in. */
final class HouseBuilder {
    /** A joint that may still grow. */
    static final class OpenJoint {
        final List<String> members = new ArrayList<>();
        Joint.Hold hold = Joint.Hold.SPLICE;
        final List<String> holders = new ArrayList<>();

        OpenJoint add(@Nullable String ref) {
            if (ref != null) {
                members.add(ref);
            }
            return this;
        }

        OpenJoint held(Joint.Hold by, String... terminals) {
            hold = by;
            holders.addAll(List.of(terminals));
            return this;
        }
    }

    /** A panel that may still grow. */
    static final class OpenPanel {
        final String name;
        final List<String> supply = new ArrayList<>();

        @Nullable
        MainDisconnect main;

        final Map<String, Breaker> breakers = new LinkedHashMap<>();
        final List<List<String>> ties = new ArrayList<>();
        final Map<String, List<String>> pullOuts = new LinkedHashMap<>();
        final List<List<String>> exclusive = new ArrayList<>();
        final Map<String, SubBus> buses = new LinkedHashMap<>();
        final Map<String, String> legs = new LinkedHashMap<>();
        boolean bonded;

        OpenPanel(String name) {
            this.name = name;
        }
    }

    final Map<String, Source> sources = new LinkedHashMap<>();
    final Map<String, OpenPanel> panels = new LinkedHashMap<>();
    final Map<String, Cable> cables = new LinkedHashMap<>();
    final Map<String, Map<String, Device>> devices = new LinkedHashMap<>();
    final Map<String, List<OpenJoint>> joints = new LinkedHashMap<>();
    private final Map<String, Integer> counters = new LinkedHashMap<>();

    String fresh(String stem) {
        return stem + counters.merge(stem, 1, Integer::sum);
    }

    OpenPanel panel(String name) {
        OpenPanel p = new OpenPanel(name);
        panels.put(name, p);
        joints.put(name, new ArrayList<>());
        return p;
    }

    String box() {
        return box(fresh("b"));
    }

    String box(String name) {
        devices.put(name, new LinkedHashMap<>());
        joints.put(name, new ArrayList<>());
        return name;
    }

    String device(String box, String kind) {
        return device(box, kind, Map.of());
    }

    String device(String box, String kind, Map<String, Boolean> tabs) {
        String name = fresh("d");
        DeviceKind k = PlainKinds.of(kind);
        devices.get(box).put(name, new Device(name, k, null, tabs, Set.of(), null, null, null, Provenance.NONE));
        return name;
    }

    /** A cable of those wires; names are colours, or name:colour. */
    String cable(CableKind kind, String from, String to, String... wires) {
        String name = fresh("K");
        List<Wire> list = new ArrayList<>();
        for (String w : wires) {
            String[] parts = w.split(":", 2);
            list.add(new Wire(parts[0], parts[parts.length - 1], "14", Wire.Material.COPPER, false));
        }
        String metal = kind.metal();
        if (metal != null) {
            list.add(new Wire(metal, "bare", null, null, true));
        }
        cables.put(
                name,
                new Cable(
                        name,
                        kind,
                        null,
                        list,
                        List.of(new CableEnd.At(from), new CableEnd.At(to)),
                        List.of(),
                        null,
                        Provenance.NONE));
        return name;
    }

    OpenJoint joint(String box, @Nullable String... members) {
        OpenJoint j = new OpenJoint();
        for (String m : members) {
            j.add(m);
        }
        joints.get(box).add(j);
        return j;
    }

    static Breaker breaker(List<String> spaces, OvercurrentType type, Set<Protection> protects, boolean opensNeutral) {
        return new Breaker(
                spaces,
                type,
                new Quantity(BigDecimal.valueOf(15), Unit.AMPERE),
                protects,
                !protects.isEmpty(),
                protects.isEmpty() ? null : opensNeutral,
                type == OvercurrentType.BREAKER,
                Breaker.Position.ON,
                null,
                Provenance.NONE);
    }

    static MainDisconnect main(OvercurrentType type) {
        return new MainDisconnect(
                2,
                type,
                new Quantity(BigDecimal.valueOf(100), Unit.AMPERE),
                Set.of(),
                Breaker.Position.ON,
                Provenance.NONE);
    }

    House build(String id) {
        Map<String, Panel> builtPanels = new LinkedHashMap<>();
        for (OpenPanel p : panels.values()) {
            builtPanels.put(
                    p.name,
                    new Panel(
                            p.name,
                            null,
                            p.supply,
                            null,
                            null,
                            p.main,
                            p.breakers,
                            p.ties,
                            p.pullOuts,
                            p.exclusive,
                            p.legs,
                            p.buses,
                            p.bonded,
                            null,
                            joints(p.name),
                            null,
                            Provenance.NONE));
        }
        Map<String, Box> boxes = new LinkedHashMap<>();
        devices.forEach((box, inIt) ->
                boxes.put(box, new Box(box, null, null, null, false, inIt, joints(box), null, Provenance.NONE)));
        return new House(
                id,
                null,
                null,
                Basis.SEEN,
                null,
                null,
                EnumSet.allOf(Complete.class),
                sources,
                Map.of(),
                builtPanels,
                cables,
                boxes,
                List.of(),
                List.of(),
                List.of(),
                Provenance.NONE);
    }

    private List<Joint> joints(String box) {
        return joints.get(box).stream()
                .filter(j -> !j.members.isEmpty())
                .map(j -> new Joint(
                        j.members.stream().map(m -> ref(box, m)).toList(),
                        j.hold,
                        j.holders.stream().map(m -> ref(box, m)).toList(),
                        null,
                        Provenance.NONE))
                .toList();
    }

    private Ref ref(String box, String written) {
        if (written.equals("box")) {
            return new Ref.BoxMetal();
        }
        int dot = written.indexOf('.');
        String head = dot < 0 ? written : written.substring(0, dot);
        String tail = written.substring(dot + 1);
        Cable c = cables.get(head);
        if (c != null && dot > 0) {
            boolean first = box.equals(c.ends().get(0).boxOrNull());
            boolean second = box.equals(c.ends().get(1).boxOrNull());
            int at = tail.indexOf('@');
            if (first && second) {
                return new Ref.WireEnd(head, tail.substring(0, at), tail.charAt(at + 1) - '1', true);
            }
            if (!first && !second) {
                throw new IllegalArgumentException(written + " does not enter " + box);
            }
            return new Ref.WireEnd(head, at < 0 ? tail : tail.substring(0, at), first ? 0 : 1, false);
        }
        if (devices.getOrDefault(box, Map.of()).containsKey(head)) {
            return new Ref.DeviceTerminal(head, tail);
        }
        if (sources.containsKey(head)) {
            return new Ref.SourceTerminal(head, tail);
        }
        if (panels.containsKey(box)) {
            return new Ref.PanelTerminal(written);
        }
        throw new IllegalArgumentException(written + " in " + box);
    }
}
