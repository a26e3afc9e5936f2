package org.splicebook.people;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Somebody with a name and a password.
 *
 * @param name the name, unique
 * @param password the password's hash as {@link Passwords} writes it; empty where it is not told
 * @param grants what they may do
 * @param made when they were added
 * @param lockedUntil until when no password lets them in, after too many wrong ones
 */
public record User(
        String name,
        String password,
        List<Grant> grants,
        Instant made,
        @Nullable Instant lockedUntil) {
    public User {
        grants = List.copyOf(grants);
    }

    /** {@return whether no password lets them in at that moment} */
    public boolean isLocked(Instant at) {
        return lockedUntil != null && Lasting.holds(lockedUntil.minus(Entrance.LOCKED), lockedUntil, at);
    }
}
