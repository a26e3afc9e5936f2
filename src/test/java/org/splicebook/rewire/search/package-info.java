/** Holds the search to small houses whose best change was found by hand. */
@NullMarked
package org.splicebook.rewire.search;

import org.jspecify.annotations.NullMarked;
