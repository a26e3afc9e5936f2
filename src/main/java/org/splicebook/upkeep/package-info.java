/**
 * Tests over time: what is tested again and again (as data), what is due in a house, recording of outcomes, and a calendar of it.
 *
 * <p>May import {@code store}, {@code housefile}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.upkeep;

import org.jspecify.annotations.NullMarked;
