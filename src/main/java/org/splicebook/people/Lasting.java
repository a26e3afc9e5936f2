package org.splicebook.people;

import java.time.Duration;
import java.time.Instant;

/** Whether what lasts for a while still does. A clock that was set back makes nothing last longer: what was not begun yet does not hold. */
final class Lasting {
    /** Clocks are put right by a little again and again; for so little nobody is put out. */
    static final Duration SLACK = Duration.ofMinutes(10);

    private Lasting() {}

    /** {@return whether a moment lies between the two, the end left out} */
    static boolean holds(Instant from, Instant until, Instant at) {
        return until.isAfter(at) && !from.minus(SLACK).isAfter(at);
    }
}
