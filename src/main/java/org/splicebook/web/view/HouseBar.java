package org.splicebook.web.view;

/** The house that a page is of: its address, what people call it, the revision shown. */
public record HouseBar(String to, String name, long revision) {}
