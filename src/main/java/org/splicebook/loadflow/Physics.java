package org.splicebook.loadflow;

import org.jspecify.annotations.Nullable;

/**
 * Under which conditions a house is computed.
 *
 * @param hertz frequency; null: 50 where a source is of 230 V, else 60
 * @param celsius temperature of the wires
 * @param ideal without resistance of wires, connections, contacts and sources, but for what the case gives in ohms
 * @param reactance whether the reactance of wires counts; left out it makes less than 1 % in branch circuits up to 8 AWG
 */
public record Physics(@Nullable Double hertz, double celsius, boolean ideal, boolean reactance) {
    /** Wires at 75 °C, as the tables of the code are made, with reactance. */
    public static final Physics USUAL = new Physics(null, Tables.number("silent", "celsius"), false, true);

    /** Nothing but what the case gives in ohms. */
    public static final Physics IDEAL = new Physics(null, Tables.number("silent", "celsius"), true, false);
}
