/**
 * The independent truth about small and random houses: a generator, and a plain flooding of the raw netlist to compare the derivation with.
 *
 * <p>May import {@code record}, {@code housefile} for the device kinds, and the result types of {@code wiring}; never the derivation's own code.
 */
@NullMarked
package org.splicebook.oracle;

import org.jspecify.annotations.NullMarked;
