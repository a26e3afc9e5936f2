package org.splicebook.ask;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.Provenance;
import org.splicebook.record.Source;

/** Things of a record without what is only said of them. */
final class Unsaid {
    private Unsaid() {}

    /** A thing without what is only said of it: what remains is wiring and rating. */
    static Object of(@Nullable Object thing) {
        if (thing instanceof Cable c) {
            return new Cable(
                    c.name(), c.kind(), null, c.wires(), c.ends(), c.through(), c.loops(), c.length(), Provenance.NONE);
        } else if (thing instanceof Breaker b) {
            return new Breaker(
                    b.spaces(),
                    b.type(),
                    b.rating(),
                    b.protects(),
                    b.neutralTerminal(),
                    b.opensNeutral(),
                    b.commonTrip(),
                    b.position(),
                    null,
                    Provenance.NONE);
        } else if (thing instanceof Source s) {
            return new Source(
                    s.name(),
                    s.kind(),
                    s.system(),
                    s.rating(),
                    s.bond(),
                    s.at(),
                    s.from(),
                    s.volts(),
                    s.transformer(),
                    s.drop(),
                    Provenance.NONE);
        } else if (thing instanceof Device d) {
            return new Device(
                    d.name(),
                    d.kind(),
                    d.rating(),
                    d.tabs(),
                    d.unused(),
                    d.load(),
                    d.watts(),
                    null,
                    d.canopy(),
                    Provenance.NONE);
        } else if (thing instanceof List<?> parts) {
            return parts.stream().map(Unsaid::of).toList();
        }
        return Optional.ofNullable(thing);
    }
}
