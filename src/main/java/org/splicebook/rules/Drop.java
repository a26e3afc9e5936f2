package org.splicebook.rules;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.Conductor;
import org.splicebook.record.Wire;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** The resistance of the wires on a way, one way only. */
final class Drop {
    private static final double CELSIUS = 75;

    private Drop() {}

    /**
     * {@return the ohms of a way's wires at 75 °C, or null where a length or size is not recorded}
     *
     * @param unmeasured takes the cables without a length
     */
    static @Nullable Double ohms(Facts f, Way way, Set<String> unmeasured) {
        double sum = 0;
        boolean known = true;
        for (Way.Hop h : way.hops()) {
            Facts.InCable w =
                    h.thing().kind() == ThingKind.WIRE ? f.wire(h.thing().name()) : null;
            if (w == null || w.wire().metal()) {
                continue;
            }
            Wire wire = w.wire();
            if (w.cable().length() == null) {
                unmeasured.add(w.cable().name());
                known = false;
            } else if (wire.size() == null) {
                known = false;
            } else {
                sum += Conductor.of(wire.size(), wire.material())
                        .ohms(w.cable().length().base(), CELSIUS);
            }
        }
        return known ? (Double) sum : null;
    }
}
