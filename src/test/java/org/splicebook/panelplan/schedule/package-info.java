/** Tests of schedules against an independent look at what is lawful, and against exhaustive search. */
@NullMarked
package org.splicebook.panelplan.schedule;

import org.jspecify.annotations.NullMarked;
