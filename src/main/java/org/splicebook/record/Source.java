package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * Where current comes from. Terminals: those of its system's poles, {@code n} and {@code g}.
 *
 * @param name its key
 * @param kind what it is
 * @param system its system
 * @param rating its rating, if known
 * @param bond the panel that holds the main bond of neutral and ground, if it has one in this record
 * @param at the box or panel in which its terminals can be named in joints; null when panels take it by {@code supply}
 * @param from whose it is, for example another unit's name
 * @param volts measured from a leg to the neutral with little on; null where nobody measured
 * @param transformer what feeds it, if known
 * @param drop the conductors between that and the house, if known
 * @param about basis, age, note
 */
public record Source(
        String name,
        SourceKind kind,
        SourceSystem system,
        @Nullable Quantity rating,
        @Nullable String bond,
        @Nullable String at,
        @Nullable String from,
        @Nullable Quantity volts,
        @Nullable Transformer transformer,
        @Nullable Drop drop,
        Provenance about) {
    /**
     * A transformer.
     *
     * @param rating its power
     * @param percent its impedance in percent; null where not known
     */
    public record Transformer(Quantity rating, @Nullable Double percent) {}

    /**
     * The conductors between a transformer and the house, all alike.
     *
     * @param length one way
     * @param size as a wire's
     * @param material what they are made of; null when not known
     */
    public record Drop(Quantity length, String size, Wire.@Nullable Material material) {}

    /** A source of whose strength nothing is known. */
    public Source(
            String name,
            SourceKind kind,
            SourceSystem system,
            @Nullable Quantity rating,
            @Nullable String bond,
            @Nullable String at,
            @Nullable String from,
            Provenance about) {
        this(name, kind, system, rating, bond, at, from, null, null, null, about);
    }
}
