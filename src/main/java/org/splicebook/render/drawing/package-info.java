/**
 * Drawings of the wiring as SVG: pure functions from what is derived to text, the same for page, file and print.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring} and {@code rules} (for box fill). Where boxes stand in a circuit is laid
 * out by jgraphx; drawings that are tables by nature (a panel, a box, the rooms) are set in rows. Colour is used for the insulation of
 * wires and for nothing else; every wire has its colour's name and a line style of its own beside it. Lines and words take the colour of
 * the text around ({@code currentColor}), and nothing needs a style sheet, so that a page may forbid styles in line.
 */
@NullMarked
package org.splicebook.render.drawing;

import org.jspecify.annotations.NullMarked;
