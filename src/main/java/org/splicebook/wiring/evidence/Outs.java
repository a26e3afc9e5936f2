package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.MayNet;

/** Which sightings are paired tests, and of what: lit before, out with breakers off, lit after, read with something that tells. */
final class Outs {
    /** Words of instruments that react to a field and tell nothing of absence. */
    private static final List<String> PROBES = List.of("probe", "contactless", "non-contact", "pen", "stick");

    private Outs() {}

    /** {@return whether a sighting is a paired test that may exclude} */
    static boolean isPaired(Sighting s) {
        return s.seen() instanceof Sighting.Lit l
                && l.before() == Sighting.Reading.LIT
                && l.read() == Sighting.Reading.NOT_LIT
                && l.after() == Sighting.Reading.LIT
                && !s.withOff().isEmpty()
                && tells(s.instrument());
    }

    /** {@return whether a reading with this instrument tells something: it is named, and no contactless probe} */
    static boolean tells(@Nullable String instrument) {
        if (instrument == null || instrument.isBlank()) {
            return false;
        }
        List<String> words = List.of(instrument.toLowerCase(Locale.ROOT).split("[^a-z-]+"));
        return PROBES.stream().noneMatch(p -> words.stream().anyMatch(w -> w.equals(p) || w.startsWith(p + "-")));
    }

    /** {@return whether a sighting shows its point lit while these were off} */
    static boolean isLit(Sighting s) {
        return s.seen() instanceof Sighting.Lit l && l.read() == Sighting.Reading.LIT && !isProbe(s);
    }

    private static boolean isProbe(Sighting s) {
        return s.instrument() != null && !tells(s.instrument());
    }

    /** {@return the poles of these handles} */
    static BitSet poles(Set<MayNet.Handle> handles) {
        BitSet all = new BitSet();
        handles.forEach(h -> h.poles().forEach(all::set));
        return all;
    }
}
