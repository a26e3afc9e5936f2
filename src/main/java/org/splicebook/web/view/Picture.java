package org.splicebook.web.view;

/**
 * A photograph on a page.
 *
 * @param src its address
 * @param alt what it is, for who cannot see it
 * @param words what is told under it
 */
public record Picture(String src, String alt, String words) {}
