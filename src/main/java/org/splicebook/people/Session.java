package org.splicebook.people;

import java.time.Instant;

/**
 * Somebody who came in and has a cookie.
 *
 * @param hash the hash of the cookie's value, which is not kept
 * @param invited whether they came by an invitation, not by a password
 * @param subject the user's name or the invitation's id
 * @param expires when it ends
 */
public record Session(String hash, boolean invited, String subject, Instant expires) {
    /** {@return whether it holds at that moment; one whose end is further off than any is made for was made by another clock} */
    public boolean holds(Instant at) {
        return Lasting.holds(expires.minus(Entrance.SESSION), expires, at);
    }
}
