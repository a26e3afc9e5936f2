/**
 * Properties: the records of several houses joined over their links, and the questions about all of them together: who goes dark, whose
 * meter counts what, neutrals across units, a unit against its type.
 *
 * <p>May import {@code store}, {@code housefile}, {@code answer}, {@code wiring}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.property;

import org.jspecify.annotations.NullMarked;
