/**
 * Archives: houses and properties with their whole past in one file (zip), written while the store runs, and read back with every entry
 * verified before anything is stored.
 *
 * <p>May import {@code store}, {@code housefile}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.archive;

import org.jspecify.annotations.NullMarked;
