package org.splicebook.rules.fill;

import org.jspecify.annotations.Nullable;

/** The room that a wire takes by its size. */
final class Sizes {
    private Sizes() {}

    /** {@return the room of a wire of that size as written; a range without a most where the size is not known or not in the table} */
    static Room of(@Nullable String size) {
        Double inches = size == null ? null : FillTables.VOLUMES.get(size);
        return inches == null ? new Room(FillTables.SMALLEST, null) : Room.of(inches);
    }

    /** {@return whether the table knows that size} */
    static boolean isListed(@Nullable String size) {
        return size != null && FillTables.VOLUMES.containsKey(size);
    }

    /** {@return whether a wire is so large that its box is sized as a pull box: 4 AWG and larger} */
    static boolean isForPullBox(@Nullable String size) {
        if (size == null || size.endsWith("mm2")) {
            return false;
        }
        return size.contains("/") || size.endsWith("kcmil") || Integer.parseInt(size) <= FillTables.PULL_BOX_FROM;
    }

    /** {@return the size in words} */
    static String said(@Nullable String size) {
        return size == null ? "size not known" : size.matches("[0-9/]+") ? size + " AWG" : size;
    }
}
