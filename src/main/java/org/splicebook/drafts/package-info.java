/**
 * Drafts that are kept: saved, carried over to a house that has moved on, entered as done, withdrawn.
 *
 * <p>May import {@code rewire}, {@code store}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.drafts;

import org.jspecify.annotations.NullMarked;
