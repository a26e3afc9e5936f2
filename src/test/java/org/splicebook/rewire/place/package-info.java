/** Holds the search to small houses whose best change was found by hand. */
@NullMarked
package org.splicebook.rewire.place;

import org.jspecify.annotations.NullMarked;
