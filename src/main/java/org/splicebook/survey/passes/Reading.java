package org.splicebook.survey.passes;

/**
 * What was read at one point in one pass.
 *
 * @param point the point by index
 * @param pass the pass by index; later passes have higher ones
 * @param out whether it showed nothing
 */
public record Reading(int point, int pass, boolean out) {}
