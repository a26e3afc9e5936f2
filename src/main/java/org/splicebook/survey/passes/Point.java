package org.splicebook.survey.passes;

/**
 * A load point of a survey; each half of a duplex is one.
 *
 * @param id as the record names it
 * @param place where it is; the box where no place is known
 * @param device the device it is on
 */
public record Point(String id, String place, String device) {}
