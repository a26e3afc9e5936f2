package org.splicebook.loadflow;

/**
 * Something that a result hangs on and that the record does not say.
 *
 * @param about the thing it is about, for example {@code K1}; empty where it is about the whole
 * @param said the assumption in words
 */
public record Assumption(String about, String said) {}
