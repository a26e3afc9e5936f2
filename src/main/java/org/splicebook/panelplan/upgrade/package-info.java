/**
 * A panel upgrade: from today's record and what is wanted to the new panel's schedule, the moves that make it, and the paper for the day.
 * What the record does not tell is asked aloud; nothing is invented. Knows the schedule, the demand, the rules (what protection a circuit
 * asks for, how large a wire must be) and the moves.
 */
@NullMarked
package org.splicebook.panelplan.upgrade;

import org.jspecify.annotations.NullMarked;
