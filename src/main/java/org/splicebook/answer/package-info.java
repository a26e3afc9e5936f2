/**
 * What any question may return, free of format.
 *
 * <p>May import {@code record}, {@code wiring} and {@code problem}.
 */
@NullMarked
package org.splicebook.answer;

import org.jspecify.annotations.NullMarked;
