/** Tests of plans for new panels. */
@NullMarked
package org.splicebook.panelplan.upgrade;

import org.jspecify.annotations.NullMarked;
