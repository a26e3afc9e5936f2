package org.splicebook.web.view;

/**
 * A photograph on a page.
 *
 * @param src its address
 * @param alt what it is, for who cannot see it
 * @param words what is told under it
 * @param isHere whether its file is on this machine
 */
public record Picture(String src, String alt, String words, boolean isHere) {}
