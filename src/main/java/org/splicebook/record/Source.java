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
        Provenance about) {}
