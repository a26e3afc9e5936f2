/**
 * Surveys: which breakers to turn off in which pass, and what the readings of the passes make likely. It ranks and never excludes.
 *
 * <p>May import {@code record}, {@code wiring}, {@code loadflow}, {@code answer} and {@code problem} and nothing else of this program.
 *
 * <p><b>Throw.</b> What one hand moves at once: a breaker with all its poles and whatever is tied to it. <b>Cause.</b> A hypothesis for one
 * point: which throws take it out, and how. <b>Pass.</b> A walk with a chosen set of throws off. A point is <em>out</em> when a lamp or
 * tester there shows nothing during the pass; that proves nothing dead.
 */
@NullMarked
package org.splicebook.survey.passes;

import org.jspecify.annotations.NullMarked;
