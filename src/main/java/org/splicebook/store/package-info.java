/**
 * What is kept: houses, revisions, sightings, as interfaces free of any database; photographs, made harmless, in a folder beside it.
 *
 * <p>May import {@code record}, {@code wiring}, {@code answer} and {@code problem}.
 */
@NullMarked
package org.splicebook.store;

import org.jspecify.annotations.NullMarked;
