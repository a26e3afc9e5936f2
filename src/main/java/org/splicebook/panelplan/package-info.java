/**
 * Planning a panel: what a dwelling demands of its service by each method and edition, line by line with its article, and what would
 * still fit. What is not known is asked for and counts nothing, so that a total with something left to ask is a least. Knows the record
 * and the wiring; the house file's package for its data.
 */
@NullMarked
package org.splicebook.panelplan;

import org.jspecify.annotations.NullMarked;
