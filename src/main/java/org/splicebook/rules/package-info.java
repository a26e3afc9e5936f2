/**
 * Checks: findings about a house with their evidence and cure, by packs of rules; advice before an inspection, never an approval.
 *
 * <p>May import {@code problem}, {@code record}, {@code housefile} (for its data), {@code wiring}, {@code loadflow} and {@code answer}.
 *
 * <p>A rule is a small pure function of the house, its wiring and the values that a pack gives it. What a pack says of a rule (title,
 * severity, articles by edition, values, cure) is data; what the rule looks at is code. A finding is found where the record shows it,
 * possible where it may be so, and asked where the rule needs to know what the record does not say: nothing unknown is taken as fine.
 */
@NullMarked
package org.splicebook.rules;

import org.jspecify.annotations.NullMarked;
