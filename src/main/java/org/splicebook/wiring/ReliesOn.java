package org.splicebook.wiring;

/**
 * A load point relies on a thing for its hot, neutral or ground.
 *
 * @param conductor for what
 * @param thing on what: SOURCE, MAIN, POLE, CABLE only as a whole by {@link LossRow}, WIRE, WIRE_END, JOINT, DEVICE (its links or contacts)
 * @param sureness MUST where it holds in every world in which the load point is live (or has that conductor); MAY where in some
 */
public record ReliesOn(Conductor conductor, Thing thing, Sureness sureness) {}
