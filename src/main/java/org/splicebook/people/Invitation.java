package org.splicebook.people;

import java.time.Instant;

/**
 * A link or a code that lets somebody in without a name and password, for a while.
 *
 * @param id what it is called by
 * @param hash the hash of the code; empty where it is not told
 * @param label whom it is for, which the record of changes calls them by
 * @param grant what it lets them do
 * @param made when it was made
 * @param expires when it and all that came in by it end
 * @param once whether only the first who comes gets in
 * @param used whether somebody came in by it
 */
public record Invitation(
        String id, String hash, String label, Grant grant, Instant made, Instant expires, boolean once, boolean used) {
    /** {@return whether it lets somebody in at that moment} */
    public boolean isOpen(Instant at) {
        return Lasting.holds(made, expires, at) && !(once && used);
    }
}
