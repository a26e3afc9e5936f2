package org.splicebook.wiring;

/** How a load point is fed, as recorded; the first that holds for one of its terminals. */
public enum Supply {
    /** A terminal reaches, in one position, poles whose buses are on unlike source poles. */
    SHORT,
    /** A terminal reaches poles of two breakers at once, on one source pole: it dies with neither alone. */
    TWICE,
    /** A terminal reaches different poles in different positions, never two at once. */
    EITHER,
    /** A terminal reaches one pole over two different ways at once. */
    RING,
    /** One pole, one way at a time. */
    ONCE,
    /** No pole in any position. */
    NONE
}
