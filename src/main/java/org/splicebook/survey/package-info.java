/**
 * Mapping by test and finding a fault: what explains what people see, and which test tells most.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code loadflow}, {@code answer}.
 */
@NullMarked
package org.splicebook.survey;

import org.jspecify.annotations.NullMarked;
