/**
 * Which breaker goes into which space of a new panel: lawful first, then in order of what people want, each proved the best or with the
 * gap that is left. Knows nothing of records: what is to be placed comes in as units, what holds them as a frame.
 */
@NullMarked
package org.splicebook.panelplan.schedule;

import org.jspecify.annotations.NullMarked;
