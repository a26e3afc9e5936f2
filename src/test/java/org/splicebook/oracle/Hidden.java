package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;

/** Takes knowledge out of a complete record, so that the whole house stays one of the houses that the partial record may be. */
public final class Hidden {
    private final House house;
    private final Random random;
    private final double share;
    /** Cable ends nobody found: cable name and end. */
    private final Set<String> lostEnds = new HashSet<>();
    /** Boxes and panels of which something is no longer known. */
    private final Set<String> open = new HashSet<>();
    /** Boxes that a cable enters of which the record does not say so. */
    private final Set<String> openToCables = new HashSet<>();

    /** Whether nothing but landings of hots in panels is hidden. */
    private final boolean landingsOnly;

    /** The wire ends and terminals that can be live, where this matters. */
    private final Set<String> live = new HashSet<>();

    private Hidden(House house, long seed, double share, boolean landingsOnly) {
        this.house = house;
        this.landingsOnly = landingsOnly;
        this.random = new Random(seed * 31 + 5);
        this.share = share;
    }

    /** {@return the house with about that share of its joints, cable ends and boxes no longer known} */
    public static House hide(House house, long seed, double share) {
        return new Hidden(house, seed, share, false).make();
    }

    /** {@return the house with about that share of the landings in its panels that a breaker feeds no longer known; all else is} */
    static House hideLandings(House house, long seed, double share) {
        Hidden h = new Hidden(house, seed, share, true);
        ShutOffTruth truth = new ShutOffTruth(house);
        BitSet live = truth.liveWith(new BitSet(), -1, false);
        truth.net.byName.forEach((name, v) -> {
            if (live.get(v)) {
                h.live.add(name);
            }
        });
        return h.make();
    }

    /** Whether a joint is hidden whole (0) or not (1). */
    private double landing(String box, Joint j) {
        boolean hot = house.panels().containsKey(box) && j.members().stream().anyMatch(m -> live.contains(m.said()));
        return hot && random.nextDouble() < share ? 0 : 1;
    }

    private boolean chance(double p) {
        return !landingsOnly && random.nextDouble() < p;
    }

    private House make() {
        Map<String, Cable> cables = new LinkedHashMap<>();
        for (Cable c : house.cables().values()) {
            List<CableEnd> ends = new ArrayList<>();
            boolean feeder =
                    house.panels().values().stream().anyMatch(p -> p.supply().contains(c.name()));
            for (int i = 0; i < 2; i++) {
                CableEnd end = c.ends().get(i);
                String box = end.boxOrNull();
                if (box != null && !feeder && !house.panels().containsKey(box) && chance(share / 3)) {
                    lostEnds.add(c.name() + "@" + i);
                    open.add(box);
                    openToCables.add(box);
                    end = chance(0.5) ? new CableEnd.Unknown() : new CableEnd.OneOf(List.of(box, otherBox(box)));
                }
                ends.add(end);
            }
            cables.put(
                    c.name(),
                    new Cable(c.name(), c.kind(), c.shorthand(), c.wires(), ends, c.through(), c.length(), c.about()));
        }
        Map<String, Box> boxes = new LinkedHashMap<>();
        for (Box b : house.boxes().values()) {
            List<Joint> joints = joints(b.name(), b.joints());
            Map<String, Device> devices = new LinkedHashMap<>();
            b.devices().forEach((n, d) -> devices.put(n, device(b.name(), d)));
            boxes.put(
                    b.name(),
                    new Box(
                            b.name(),
                            b.place(),
                            b.shell(),
                            b.cableEntries(),
                            b.hidden(),
                            devices,
                            joints,
                            complete(b.name()),
                            b.about()));
        }
        Map<String, Panel> panels = new LinkedHashMap<>();
        for (Panel p : house.panels().values()) {
            List<Joint> joints = joints(p.name(), p.joints());
            panels.put(p.name(), p.withJoints(joints, complete(p.name())));
        }
        return house.withParts(panels, cables, boxes);
    }

    private String otherBox(String not) {
        List<String> names =
                house.boxes().keySet().stream().filter(n -> !n.equals(not)).toList();
        return names.isEmpty() ? not : names.get(random.nextInt(names.size()));
    }

    private Device device(String box, Device d) {
        if (!open.contains(box) || d.tabs().isEmpty() || chance(0.5)) {
            return d;
        }
        return new Device(
                d.name(), d.kind(), d.rating(), Map.of(), d.unused(), d.load(), d.watts(), d.label(), d.about());
    }

    private List<Joint> joints(String box, List<Joint> all) {
        List<Joint> kept = new ArrayList<>();
        for (Joint j : all) {
            List<Ref> members = new ArrayList<>(j.members());
            members.removeIf(m -> m instanceof Ref.WireEnd w && lostEnds.contains(w.cable() + "@" + w.end()));
            double way = landingsOnly ? landing(box, j) : random.nextDouble();
            if (way < share / 2) {
                open.add(box);
                continue;
            } else if (way < share * 0.75 && members.size() > 2) {
                members.remove(random.nextInt(members.size()));
            } else if (way < share) {
                members.removeIf(m -> m instanceof Ref.DeviceTerminal);
            }
            if (members.size() == j.members().size()) {
                kept.add(j);
                continue;
            }
            open.add(box);
            if (members.size() >= 2 && !members.stream().allMatch(m -> m instanceof Ref.PanelTerminal)) {
                List<Ref> holders = new ArrayList<>(j.holders());
                holders.retainAll(members);
                Joint.Hold hold = holders.size() == j.holders().size()
                        ? j.hold()
                        : j.hold() == Joint.Hold.DEVICE ? Joint.Hold.UNSAID : Joint.Hold.SPLICE;
                kept.add(new Joint(members, hold, hold == Joint.Hold.SPLICE ? List.of() : holders, j.by(), j.about()));
            }
        }
        return kept;
    }

    private Set<Complete> complete(String box) {
        Set<Complete> c = EnumSet.allOf(Complete.class);
        if (open.contains(box)) {
            c.remove(Complete.JOINTS);
            c.remove(Complete.LANDINGS);
        }
        if (openToCables.contains(box) || chance(share / 3)) {
            c.remove(Complete.CABLES);
            c.remove(Complete.JOINTS);
            c.remove(Complete.LANDINGS);
        }
        return c;
    }
}
