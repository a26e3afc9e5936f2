/**
 * What must be off, locked and tested before a box is opened, and the proof of it.
 *
 * <p>May import {@code wiring}, {@code wiring.evidence}, {@code record} and {@code problem} and nothing else of this program.
 *
 * <p><b>What may reach.</b> From each wire of the target everything is walked that may conduct: wires, every position of every switch,
 * what something not recorded may join, transformers both ways, and loads. Neutral and ground bars end the walk while they stay
 * joined to the source's neutral with everything in the target parted. The first poles met are what must be opened, if current may come to their other side.
 */
@NullMarked
package org.splicebook.wiring.shutoff;

import org.jspecify.annotations.NullMarked;
