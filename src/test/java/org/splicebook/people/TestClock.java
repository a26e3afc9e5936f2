package org.splicebook.people;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that goes when it is told to. */
public final class TestClock extends Clock {
    private Instant now = Instant.now();

    /** Lets time pass. */
    public void pass(Duration time) {
        now = now.plus(time);
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return this;
    }

    @Override
    public Instant instant() {
        return now;
    }
}
