package org.splicebook.record;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A cable, a raceway with the wires pulled into it, or a single open wire.
 *
 * @param name its key
 * @param kind what it is
 * @param shorthand the wires as the trade writes them ({@code 12/2+ground}); null where they were named freely
 * @param wires its conductors, metal included
 * @param ends its two ends
 * @param through boxes it passes uncut
 * @param loops of those, where it lies in an uncut loop of at least twice the free length that a spliced wire must have; null when
 *     nobody said
 * @param length its length, if known
 * @param about basis, age, note
 */
public record Cable(
        String name,
        CableKind kind,
        @Nullable String shorthand,
        List<Wire> wires,
        List<CableEnd> ends,
        List<String> through,
        @Nullable List<String> loops,
        @Nullable Quantity length,
        Provenance about) {
    /** A cable of whose loops nobody said anything. */
    public Cable(
            String name,
            CableKind kind,
            @Nullable String shorthand,
            List<Wire> wires,
            List<CableEnd> ends,
            List<String> through,
            @Nullable Quantity length,
            Provenance about) {
        this(name, kind, shorthand, wires, ends, through, null, length, about);
    }

    public Cable {
        wires = List.copyOf(wires);
        ends = List.copyOf(ends);
        through = List.copyOf(through);
        loops = loops == null ? null : List.copyOf(loops);
        if (ends.size() != 2) {
            throw new IllegalArgumentException("a cable has two ends: " + name);
        }
    }

    /** {@return the same cable with this said of it} */
    public Cable withAbout(Provenance other) {
        return new Cable(name, kind, shorthand, wires, ends, through, loops, length, other);
    }
}
