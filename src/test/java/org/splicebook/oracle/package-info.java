/**
 * The independent truth about small and random houses: a generator, and a plain flooding of the raw netlist to compare the derivation with.
 *
 * <p>May import {@code record}, {@code housefile} for the device kinds, the result types of {@code wiring} and the cases of
 * {@code loadflow}; never the derivation's or the solver's own code.
 */
@NullMarked
package org.splicebook.oracle;

import org.jspecify.annotations.NullMarked;
