/**
 * Drafts: what a house would be after a change, and what that changes.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code loadflow}, {@code rules} and {@code answer}.
 */
@NullMarked
package org.splicebook.rewire;

import org.jspecify.annotations.NullMarked;
