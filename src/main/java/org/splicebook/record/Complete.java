package org.splicebook.record;

import java.util.Locale;

/** What is said to be wholly listed. Only this lets an answer exclude anything. */
public enum Complete {
    /** Of a box: no other cable enters. */
    CABLES,
    /** Of a box: every joint is listed, and whole; a wire end or terminal in none of them touches nothing. */
    JOINTS,
    /** Of a panel: no other breaker or fuse is there. */
    BREAKERS,
    /** Of a panel: no other wire lands on a breaker, bar or lug. */
    LANDINGS;

    /** {@return the word of the house file} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
