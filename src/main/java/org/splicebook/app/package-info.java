/**
 * Puts the program together: what was configured, which store is opened, what runs and how it ends.
 *
 * <p>May import every other package; the only one that makes a store.
 */
@NullMarked
package org.splicebook.app;

import org.jspecify.annotations.NullMarked;
