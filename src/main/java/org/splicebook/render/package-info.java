/**
 * Turns answers, questions and problems into text for people and JSON for programs.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code loadflow} and {@code answer}.
 */
@NullMarked
package org.splicebook.render;

import org.jspecify.annotations.NullMarked;
