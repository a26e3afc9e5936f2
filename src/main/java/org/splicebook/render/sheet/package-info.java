/**
 * Sheets to print: what stands on each, free of HTML and of PDF. Pure functions of a revision, what is derived of it, and answers.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code answer}, {@code render} and {@code render.drawing}; the only package
 * that uses ZXing.
 */
@NullMarked
package org.splicebook.render.sheet;

import org.jspecify.annotations.NullMarked;
