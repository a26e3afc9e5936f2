package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.Set;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/** Which sightings are paired tests, and of what: lit before, out with breakers off, lit after, read with something that tells. */
final class Outs {
    private Outs() {}

    /** {@return whether a sighting is a paired test that may exclude} */
    static boolean isPaired(Sighting s) {
        return s.seen() instanceof Sighting.Lit l
                && l.before() == Sighting.Reading.LIT
                && l.read() == Sighting.Reading.NOT_LIT
                && l.after() == Sighting.Reading.LIT
                && !s.withOff().isEmpty()
                && Instruments.tells(s.instrument());
    }

    /** {@return whether a sighting shows its point lit while these were off} */
    static boolean isLit(Sighting s) {
        return s.seen() instanceof Sighting.Lit l
                && l.read() == Sighting.Reading.LIT
                && !Instruments.isField(s.instrument());
    }

    /** {@return the poles of these handles} */
    static BitSet poles(Set<MayNet.Handle> handles) {
        BitSet all = new BitSet();
        handles.forEach(h -> h.poles().forEach(all::set));
        return all;
    }
}
