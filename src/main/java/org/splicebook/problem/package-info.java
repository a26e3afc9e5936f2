/**
 * What can be wrong and how it is said: a code, a place, what was found and what would be right.
 *
 * <p>May import nothing of this program.
 */
@NullMarked
package org.splicebook.problem;

import org.jspecify.annotations.NullMarked;
