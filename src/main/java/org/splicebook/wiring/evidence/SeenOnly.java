package org.splicebook.wiring.evidence;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;

/**
 * A house with only what was seen taken as known: a joint that nobody saw is open, and what is said to be complete without having been
 * seen is not. Only complete seen wiring may exclude a breaker (design ruling 11).
 */
public final class SeenOnly {
    private SeenOnly() {}

    /** {@return the house with what was not seen left open; the same house if all of it was seen} */
    public static House of(House house) {
        Map<String, Box> boxes = new LinkedHashMap<>();
        house.boxes().forEach((n, b) -> boxes.put(n, box(house, b)));
        Map<String, Panel> panels = new LinkedHashMap<>();
        house.panels().forEach((n, p) -> panels.put(n, panel(house, p)));
        if (boxes.equals(house.boxes()) && panels.equals(house.panels())) {
            return house;
        }
        return house.withParts(panels, house.cables(), boxes);
    }

    private static boolean isSeen(Provenance about, Basis otherwise) {
        return about.basisOr(otherwise) == Basis.SEEN;
    }

    private static List<Joint> seen(List<Joint> joints, Basis otherwise) {
        return joints.stream().filter(j -> isSeen(j.about(), otherwise)).toList();
    }

    private static Box box(House house, Box b) {
        Basis basis = b.about().basisOr(house.basis());
        List<Joint> joints = seen(b.joints(), basis);
        Map<String, Device> devices = new LinkedHashMap<>();
        b.devices().forEach((n, d) -> devices.put(n, isSeen(d.about(), basis) ? d : unseen(d)));
        boolean all = joints.equals(b.joints()) && devices.equals(b.devices());
        if (basis == Basis.SEEN && all) {
            return b;
        }
        Set<Complete> complete = EnumSet.noneOf(Complete.class);
        if (basis == Basis.SEEN && house.isComplete(b, Complete.CABLES)) {
            complete.add(Complete.CABLES);
        }
        return new Box(
                b.name(), b.place(), b.shell(), b.cableEntries(), b.hidden(), devices, joints, complete, b.about());
    }

    private static Device unseen(Device d) {
        return new Device(
                d.name(), d.kind(), d.rating(), Map.of(), Set.of(), d.load(), d.watts(), d.label(), d.about());
    }

    private static Panel panel(House house, Panel p) {
        Basis basis = p.about().basisOr(house.basis());
        List<Joint> joints = seen(p.joints(), basis);
        if (basis == Basis.SEEN && joints.equals(p.joints())) {
            return p;
        }
        Set<Complete> complete = EnumSet.noneOf(Complete.class);
        if (basis == Basis.SEEN && house.isComplete(p, Complete.BREAKERS)) {
            complete.add(Complete.BREAKERS);
        }
        return p.withJoints(joints, complete);
    }
}
