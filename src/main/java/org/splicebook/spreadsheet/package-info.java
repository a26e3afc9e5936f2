/**
 * Lists out of spreadsheets (CSV and XLSX): panel schedules and outlets, their columns matched by name, what they would add to a house,
 * and what is wrong by cell. Files are taken to be hostile.
 *
 * <p>May import {@code housefile}, {@code record} and {@code problem}.
 */
@NullMarked
package org.splicebook.spreadsheet;

import org.jspecify.annotations.NullMarked;
