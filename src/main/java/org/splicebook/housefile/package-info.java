/**
 * Outside to record and back: house files in YAML or JSON with positions for errors, and the kinds of devices as data.
 *
 * <p>May import {@code record} and {@code problem} of this program.
 */
@NullMarked
package org.splicebook.housefile;

import org.jspecify.annotations.NullMarked;
