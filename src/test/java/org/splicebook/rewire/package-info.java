/** Holds drafts to houses as they were and as they must be. */
@NullMarked
package org.splicebook.rewire;

import org.jspecify.annotations.NullMarked;
