package org.splicebook.property;

/** Devices that stand for where a record ends. */
final class Boundaries {
    private static final String KIND = "boundary-";

    private Boundaries() {}

    /** {@return whether a load point is a boundary, or the beginning of a link} */
    static boolean is(Joined joined, String part, String point) {
        return !joined.from(part, point).isEmpty()
                || joined.house(part)
                        .filter(h -> h.boxes().values().stream()
                                .flatMap(b -> b.devices().values().stream())
                                .anyMatch(d -> d.name().equals(point)
                                        && d.kind().name().startsWith(KIND)))
                        .isPresent();
    }
}
