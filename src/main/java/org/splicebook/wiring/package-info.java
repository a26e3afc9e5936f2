/**
 * What the wiring does: feeds, returns, what relies on what, protections, crossings, and what is lost with each thing, as may and must.
 *
 * <p>May import {@code record} and {@code problem} and nothing else of this program.
 *
 * <h2>What the words mean here</h2>
 *
 * <p><b>World.</b> A <em>completion</em> of what is not known, and one <em>position</em> for every lever. In a world the house is a
 * graph: joints, wire ends, wires, terminals, links inside devices, poles, buses, bars. Breakers and protective contacts are closed;
 * loads do not conduct. {@link org.splicebook.wiring.Sureness} says over which worlds a relation holds.
 *
 * <p><b>Regions.</b> Buses (the legs of a panel) and bars (neutral, ground) are cut out of the graph; what is left falls into regions.
 * A region that holds a supply lug or a source terminal, or that touches buses of two panels, is a <em>feeder region</em>. A way from
 * a load point ends at the first bus or bar it meets, and goes on to a source over feeder regions only. A neutral or ground region
 * goes on from bar to bar if it holds a wire of a cable that has a wire in a hot feeder region.
 *
 * <p><b>Live.</b> A load point is live in a world when one of its load terminals reaches, without passing a load, a pole whose bus
 * reaches a source. <b>Feed:</b> a pole so reached. <b>Return:</b> a neutral bar that a load terminal reaches and that goes on to a
 * source's neutral; over ground: a ground bar, where no neutral is reached. The main bond is left out of all this. A region that
 * lands on the neutral bar of the panel with the main bond, holds a ground terminal or box metal and no load terminal, is ground.
 *
 * <p><b>Relies on.</b> x is relied on by a load point, for its hot, in a world where it is live, when taking x away leaves it not
 * live; for neutral and ground likewise. <b>Protects:</b> see {@link org.splicebook.wiring.ProtectedBy}.
 *
 * <p><b>Lost.</b> Judged over all positions of the levers together: see {@link org.splicebook.wiring.LossRow}.
 */
@NullMarked
package org.splicebook.wiring;

import org.jspecify.annotations.NullMarked;
