/**
 * Clean houses, broken in one way each: what the break must make a check find is said here by the trade, not by the rules' code.
 */
@NullMarked
package org.splicebook.rules.mutation;

import org.jspecify.annotations.NullMarked;
