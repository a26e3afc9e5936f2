package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * One conductor of a cable. Colour is never function.
 *
 * @param name its name within the cable
 * @param colour insulation colour as written; {@code bare}, {@code unknown}
 * @param size as written: {@code 14}, {@code 2/0}, {@code 250 kcmil}, {@code 2.5 mm2}; null when not known
 * @param material what it is made of; null when not known
 * @param metal whether it is armour or raceway metal ({@code armour}, {@code metal})
 * @param ohms measured from end to end; null where nobody measured
 * @param note free words
 */
public record Wire(
        String name,
        String colour,
        @Nullable String size,
        @Nullable Material material,
        boolean metal,
        @Nullable Quantity ohms,
        @Nullable String note) {
    /** What a wire is made of. */
    public enum Material {
        COPPER,
        ALUMINIUM,
        COPPER_CLAD
    }

    /** A wire without a note. */
    public Wire(String name, String colour, @Nullable String size, @Nullable Material material, boolean metal) {
        this(name, colour, size, material, metal, null, null);
    }
}
