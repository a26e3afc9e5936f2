package org.splicebook.wiring;

import org.splicebook.record.Protection;

/**
 * A protective function that a load point has.
 *
 * <p>Overcurrent: every way of a hot passes the pole (its breaker is the nearest; those above follow). Ground-fault: every way of
 * every current-carrying conductor, neutral included where the load point has one, passes the sensor. Arc-fault: the hot, and the
 * neutral where the device senses it.
 *
 * @param function which function
 * @param by the breaker ({@code BREAKER}), main ({@code MAIN}) or device ({@code DEVICE})
 * @param sureness MUST where it holds in every world in which the load point is live, else MAY
 * @param nearness 0 for the nearest to the load point, 1 for the next above, ...
 */
public record ProtectedBy(Protection function, Thing by, Sureness sureness, int nearness) {}
