/**
 * Questions that need search rather than traversal, answered from record, wiring and sightings.
 *
 * <p>May import {@code store}, {@code answer}, {@code survey}, {@code wiring}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.ask;

import org.jspecify.annotations.NullMarked;
