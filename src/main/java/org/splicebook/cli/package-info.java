/**
 * The commands: what is typed, what is printed, with which exit code.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code loadflow}, {@code answer}, {@code store}, {@code people}, {@code render} and {@code housefile}; the
 * only package that uses picocli.
 */
@NullMarked
package org.splicebook.cli;

import org.jspecify.annotations.NullMarked;
