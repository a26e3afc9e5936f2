package org.splicebook.rules;

import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.Set;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.WireUse;

/** A first look at whether a neutral may pass a device, which spares most houses the question what relies on what. */
final class NeutralPasses {
    private final Facts facts;
    private final Facts.InBox device;
    private final Set<String> seen = new HashSet<>();
    private final ArrayDeque<Ref.DeviceTerminal> open = new ArrayDeque<>();

    private NeutralPasses(Facts facts, Facts.InBox device) {
        this.facts = facts;
        this.device = device;
    }

    /** {@return whether what conducts in a device may carry a neutral: what it touches in its box, over other devices too, may be one} */
    static boolean may(Facts facts, Facts.InBox device) {
        return new NeutralPasses(facts, device).look();
    }

    private boolean look() {
        for (DeviceKind.Link l : device.device().kind().links()) {
            if (l.when() != DeviceKind.When.AS_LOAD) {
                add(device.name(), l.a());
                add(device.name(), l.b());
            }
        }
        for (DeviceKind.Tab t : device.device().kind().tabs()) {
            add(device.name(), t.a());
            add(device.name(), t.b());
        }
        while (!open.isEmpty()) {
            Ref.DeviceTerminal at = open.remove();
            if (isNeutral(at)) {
                return true;
            }
            Facts.InBox d = facts.device(at.device());
            if (d != null) {
                d.device().kind().links().stream()
                        .filter(l -> l.when() != DeviceKind.When.AS_LOAD)
                        .forEach(l -> over(at, l.a(), l.b()));
                d.device().kind().tabs().forEach(t -> over(at, t.a(), t.b()));
            }
        }
        return false;
    }

    private void over(Ref.DeviceTerminal at, String a, String b) {
        if (a.equals(at.terminal())) {
            add(at.device(), b);
        } else if (b.equals(at.terminal())) {
            add(at.device(), a);
        }
    }

    private void add(String of, String terminal) {
        if (seen.add(of + "." + terminal)) {
            open.add(new Ref.DeviceTerminal(of, terminal));
        }
    }

    /** Whether a terminal touches a wire that may be a neutral; the other devices in its joints are looked at next. */
    private boolean isNeutral(Ref.DeviceTerminal at) {
        for (Joint j : device.box().joints()) {
            if (j.members().contains(at)) {
                for (Ref r : j.members()) {
                    if (r instanceof Ref.DeviceTerminal t) {
                        add(t.device(), t.terminal());
                    } else if (!(r instanceof Ref.WireEnd e) || isNeutral(e)) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private boolean isNeutral(Ref.WireEnd e) {
        WireUse use = facts.use(e.cable() + "." + e.wire());
        return use == null || use.uses().stream().anyMatch(u -> u.conductor() == Conductor.NEUTRAL);
    }
}
