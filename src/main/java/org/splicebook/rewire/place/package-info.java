/**
 * Placement: which protective devices, where, cover what asks for protection at the least cost.
 *
 * <p>May import what {@code rewire} may.
 */
@NullMarked
package org.splicebook.rewire.place;

import org.jspecify.annotations.NullMarked;
