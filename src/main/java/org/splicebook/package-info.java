/**
 * A wiring record of a house, and the answers that follow from it.
 *
 * <p>This package holds no code: each package below it says what it is for and what it may import.
 */
@NullMarked
package org.splicebook;

import org.jspecify.annotations.NullMarked;
