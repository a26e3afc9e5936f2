package org.splicebook.ask;

import java.util.Collection;
import java.util.List;
import org.splicebook.answer.Reason;
import org.splicebook.record.House;
import org.splicebook.wiring.Way;

/** The part of a way from a wire on. */
final class Passing {
    private Passing() {}

    /** {@return whether the way passes one of these wires} */
    static boolean any(Way way, Collection<String> wires) {
        return at(way, wires) >= 0;
    }

    /** {@return the way from the first of these wires that it passes, towards the source} */
    static Reason from(Way way, Collection<String> wires, House house) {
        List<Way.Hop> hops =
                way.hops().subList(Math.max(0, at(way, wires)), way.hops().size());
        String wire = hops.get(0).thing().name();
        return Reason.of("From " + wire, new Way(hops, way.basis(), way.throughUnknown()), house);
    }

    private static int at(Way way, Collection<String> wires) {
        for (int i = 0; i < way.hops().size(); i++) {
            if (wires.contains(way.hops().get(i).thing().name())) {
                return i;
            }
        }
        return -1;
    }
}
