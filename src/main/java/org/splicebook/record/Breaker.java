package org.splicebook.record;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A breaker or a fuse: one pole per space it names. A half space ({@code 5a}) is half of a tandem.
 *
 * @param spaces its spaces in order, one pole each; each is also the name of that pole's terminal
 * @param type breaker or fuse
 * @param rating amperes, if known
 * @param protects functions beside overcurrent
 * @param neutralTerminal whether it has a neutral terminal ({@code 8.neutral}, named by its first space)
 * @param opensNeutral whether it opens the neutral too; null is not known, and counts as not
 * @param commonTrip whether a trip of one pole opens all; breakers do, fuses do not
 * @param position as it was found
 * @param label what the directory says
 * @param about basis, age, note
 */
public record Breaker(
        List<String> spaces,
        OvercurrentType type,
        @Nullable Quantity rating,
        Set<Protection> protects,
        boolean neutralTerminal,
        @Nullable Boolean opensNeutral,
        boolean commonTrip,
        Position position,
        @Nullable String label,
        Provenance about) {
    /** What directories write of a breaker that serves nothing. */
    private static final Set<String> SPARE = Set.of("spare", "unused", "not used", "empty", "blank", "off");

    /** Where its handle was found. */
    public enum Position {
        ON,
        OFF,
        TRIPPED
    }

    public Breaker {
        spaces = List.copyOf(spaces);
        protects = Ordered.set(protects);
    }

    /** {@return the same breaker in other spaces} */
    public Breaker at(List<String> others) {
        return new Breaker(
                others, type, rating, protects, neutralTerminal, opensNeutral, commonTrip, position, label, about);
    }

    /** {@return its key in the panel, for example {@code 2+4}} */
    public String key() {
        return String.join("+", spaces);
    }

    /** {@return whether the directory says that it serves nothing} */
    public boolean isCalledSpare() {
        return label != null && SPARE.contains(label.strip().toLowerCase(Locale.ROOT));
    }
}
