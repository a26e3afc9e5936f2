/**
 * Load flow: volts, amperes and residuals of a whole house in any state, with any loads and faults.
 *
 * <p>May import {@code record}, {@code problem}, {@code wiring}, and the reader of trusted YAML of {@code housefile}; nothing else of
 * this program.
 *
 * <h2>What the words mean here</h2>
 *
 * <p><b>Node.</b> A joint, a wire end, a terminal, a bar, a bus, box metal, earth. Named as in a house file: {@code K1.white@2} (a wire's
 * second end), {@code bench-1.top.hot}, {@code main.n}, {@code main.6}, {@code main.a} (a leg's bus), {@code main.line-1},
 * {@code bench.box} (metal), {@code service.n}, {@code earth}; {@code bench:K1.white} is the joint in box bench that K1.white is in.
 *
 * <p><b>Branch.</b> What carries current between two nodes: a wire ({@code K1.white}, from its first end to its second), an arm
 * ({@code bench:K1.white}, from a joint to that member of it; {@code K1.white@2} names the arm of that end too), a pole
 * ({@code main.6}, from bus to terminal), a link inside a device ({@code dim[line,load]}), a load ({@code bench-1.top}; where a load
 * point has several pairs {@code range[hot-1,hot-2]}), a conductor of the service drop ({@code service.l1}, {@code service.n}, from the
 * source to the house). Amperes are positive from the first node to the second.
 *
 * <p><b>Connection resistance</b> belongs to each arm: two spliced wires have it twice between them. Terminals of a panel (bars, lugs,
 * breaker terminals) have no arm of their own: a wire landed on a bar has the resistance once. Terminals strapped together have it once
 * between them.
 *
 * <p><b>Phasors</b> are complex and rms, in volts and amperes. Loads and sources that are not on the same part of the circuit have no
 * voltage between them: it floats, and is told so.
 */
@NullMarked
package org.splicebook.loadflow;

import org.jspecify.annotations.NullMarked;
