/**
 * Box fill: what is in a box, the room it takes by the count of an edition, the room there is, what would still fit and what would cure it.
 *
 * <p>May import {@code problem}, {@code record}, {@code housefile} (for its data), {@code wiring} and {@code answer}.
 *
 * <p>Room is a range: the least that what is recorded takes, and the most that it may take; without a most where something not recorded
 * may be in the box. A box is too full only where the least is more than the room there may be, and in order only where the most is not
 * more than the room there surely is. The count is that of NEC 314.16; its figures are in {@code box-fill.yaml}.
 */
@NullMarked
package org.splicebook.rules.fill;

import org.jspecify.annotations.NullMarked;
