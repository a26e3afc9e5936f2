/**
 * The house record: what was written down about one dwelling's wiring, immutable and free of judgement.
 *
 * <p>May import {@code problem} and nothing else of this program.
 */
@NullMarked
package org.splicebook.record;

import org.jspecify.annotations.NullMarked;
