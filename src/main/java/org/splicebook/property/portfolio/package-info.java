/**
 * Made-up properties of any number of wired apartments, to measure with: the same seed gives the same.
 *
 * <p>May import what {@code property} may.
 */
@NullMarked
package org.splicebook.property.portfolio;

import org.jspecify.annotations.NullMarked;
