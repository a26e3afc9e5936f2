package org.splicebook.store;

/**
 * How the store is.
 *
 * @param up whether it answers
 * @param kind {@code embedded} or {@code server}
 * @param version the database's version
 * @param houses how many houses it holds
 * @param roundTripMicros one empty query's round trip
 * @param wrong what is wrong and what to do, in words; empty where nothing is
 */
public record Health(boolean up, String kind, String version, long houses, long roundTripMicros, String wrong) {}
