package org.splicebook.store;

import java.time.Instant;
import java.util.List;

/**
 * Something that is kept beside a house and is no part of its record, its graph or its revisions.
 *
 * @param kind what it is of: {@link Papers#VISIT} or {@link Papers#RESIDENT}
 * @param house the house's id
 * @param name its name, unique among those of its kind and house
 * @param lines what was written, the first first
 */
public record Paper(String kind, String house, String name, List<Line> lines) {
    /** A line: when and by whom it was written, and what it says. */
    public record Line(Instant at, String who, String text) {}

    public Paper {
        lines = List.copyOf(lines);
    }

    /** {@return how many lines it has: what is added is added to so many} */
    public long version() {
        return lines.size();
    }
}
