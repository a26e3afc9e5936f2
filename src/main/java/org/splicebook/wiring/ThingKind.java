package org.splicebook.wiring;

/** Kinds of things that ways pass and that can be lost. */
public enum ThingKind {
    /** A source, named by its key: {@code service}. */
    SOURCE,
    /** A panel's main: {@code main} is the panel's name. */
    MAIN,
    /** A breaker or fuse with all its poles: {@code main.2+4}. */
    BREAKER,
    /** One pole: {@code main.2}. */
    POLE,
    /** One leg of a panel: {@code main.a}, or {@code main.lower.a} on a further bus named lower. */
    BUS,
    /** A neutral or ground bar: {@code main.n}, {@code main.g}. */
    BAR,
    /** A supply lug: {@code main.line-1}. */
    LUG,
    /** A cable: {@code K1}. */
    CABLE,
    /** A wire: {@code K1.black}. */
    WIRE,
    /** A wire end, the end always said, counted from 1: {@code K1.black@1}. */
    WIRE_END,
    /**
     * A joint: the box or panel, a colon, and the first in alphabetical order of its members as written: {@code bench:K1.black}. A landing in a
     * panel is a joint of its own, named by the landed member: {@code main:K1.white}.
     */
    JOINT,
    /** A device: {@code bench-1}. */
    DEVICE,
    /** A terminal of a device: {@code bench-1.top.hot}. */
    TERMINAL,
    /** The metal of a box or panel: {@code bench}. */
    METAL
}
