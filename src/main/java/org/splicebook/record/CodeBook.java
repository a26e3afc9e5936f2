package org.splicebook.record;

/** What new work is judged by: the country and the edition of its code. */
public record CodeBook(String country, String edition) {}
