package org.splicebook.wiring;

/**
 * A bar that a load point's terminal, or its ground terminal, reaches.
 *
 * @param over neutral for a neutral bar, ground for a ground bar
 * @param bar the first bar: {@code main.n}
 * @param terminal the terminal: {@code bench-1.top.neutral}
 * @param sureness over which worlds
 * @param way one shortest way
 */
public record Return(Conductor over, String bar, String terminal, Sureness sureness, Way way) {}
