/**
 * From a fault report to the closed visit, step by step as {@code visits.yaml} says, and who lives there as far as work has to know it: both
 * kept beside houses, the second so that it can be erased.
 *
 * <p>May import {@code store}, {@code answer}, {@code housefile}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.visits;

import org.jspecify.annotations.NullMarked;
