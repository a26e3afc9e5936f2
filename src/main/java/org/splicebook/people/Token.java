package org.splicebook.people;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What lets a program in, for a user.
 *
 * @param id what it is called by
 * @param hash the hash of the secret, which is shown once and not kept; empty where it is not told
 * @param user whose it is; it may what they may at that moment
 * @param label what it is for
 * @param atMost the highest role that it has, whatever its user has
 * @param made when it was made
 * @param expires when it ends; null for never
 */
public record Token(
        String id,
        String hash,
        String user,
        String label,
        Role atMost,
        Instant made,
        @Nullable Instant expires) {
    /** {@return whether it has ended at that moment, or has an end and was not made yet} */
    public boolean isOver(Instant at) {
        return expires != null && !Lasting.holds(made, expires, at);
    }
}
