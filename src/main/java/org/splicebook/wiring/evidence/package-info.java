/**
 * What sightings show of the wiring, what they do not, which of them no longer stand, and which cannot all be true.
 *
 * <p>May import {@code wiring}, {@code record} and {@code problem} and nothing else of this program.
 */
@NullMarked
package org.splicebook.wiring.evidence;

import org.jspecify.annotations.NullMarked;
