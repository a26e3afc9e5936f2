package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;

/** Parts of a record with one thing replaced. */
final class Parts {
    private Parts() {}

    static Panel withTies(Panel p, List<List<String>> ties) {
        return new Panel(
                p.name(),
                p.place(),
                p.supply(),
                p.spaces(),
                p.rating(),
                p.main(),
                p.breakers(),
                ties,
                p.pullOuts(),
                p.exclusive(),
                p.legs(),
                p.buses(),
                p.bonded(),
                p.neutralFuse(),
                p.electrode(),
                p.joints(),
                p.complete(),
                p.about());
    }

    static Device withUnused(Device d, Set<String> unused) {
        return device(d, d.kind(), d.tabs(), unused);
    }

    static Device device(Device d, DeviceKind kind, Map<String, Boolean> tabs, Set<String> unused) {
        return new Device(
                d.name(), kind, d.rating(), tabs, unused, d.load(), d.watts(), d.label(), d.canopy(), d.about());
    }

    static Device withLabel(Device d, String words) {
        String label = d.label() == null || d.label().isBlank() ? words : d.label() + "; " + words;
        return new Device(
                d.name(),
                d.kind(),
                d.rating(),
                d.tabs(),
                d.unused(),
                d.load(),
                d.watts(),
                label,
                d.canopy(),
                d.about());
    }

    /** {@return whether a tab is in, as the file's reader understands a device} */
    static boolean isIn(Device d, String tab) {
        Boolean said = d.tabs().get(tab);
        return said != null
                ? said
                : d.kind().tabs().stream().anyMatch(t -> t.name().equals(tab) && t.madeIn());
    }

    /** {@return what is left of a joint when a member goes: nothing, itself smaller, or its wires one by one} */
    static List<Joint> without(Joint j, Ref member) {
        List<Ref> left = new ArrayList<>(j.members());
        left.remove(member);
        if (left.isEmpty() || left.stream().allMatch(Parts::isFixed)) {
            return List.of();
        }
        boolean parts = member instanceof Ref.DeviceTerminal
                && j.hold() != Joint.Hold.TAIL
                && j.hold() != Joint.Hold.SPLICE
                && left.size() > 1;
        if (parts) {
            return left.stream().filter(m -> !isFixed(m)).map(Parts::alone).toList();
        }
        List<Ref> holders = new ArrayList<>(j.holders());
        holders.remove(member);
        Joint.Hold hold = j.hold();
        if (holders.isEmpty() && hold == Joint.Hold.TAIL) {
            hold = left.size() > 1 && j.by() != null ? Joint.Hold.SPLICE : Joint.Hold.UNSAID;
        } else if (left.size() == 1) {
            return List.of(alone(left.get(0)));
        }
        return List.of(new Joint(left, hold, holders, j.by(), j.about()));
    }

    static Joint alone(Ref member) {
        return new Joint(List.of(member), Joint.Hold.UNSAID, List.of(), null, Provenance.NONE);
    }

    /** A bar, a lug, a breaker or metal: it is there whether or not something touches it. */
    static boolean isFixed(Ref r) {
        return r instanceof Ref.PanelTerminal || r instanceof Ref.BoxMetal || r instanceof Ref.SourceTerminal;
    }
}
