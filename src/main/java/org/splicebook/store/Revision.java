package org.splicebook.store;

import java.time.Instant;

/**
 * One stored state of a house.
 *
 * @param house the house's id
 * @param name what people call it
 * @param number from 1
 * @param stored when
 * @param who who stored it
 * @param why why
 * @param deleted whether this revision takes the house away
 * @param digest SHA-256 of the stored record, in hexadecimal
 */
public record Revision(
        String house,
        String name,
        long number,
        Instant stored,
        String who,
        String why,
        boolean deleted,
        String digest) {
    /** {@return the same with the digest of the record as it is kept here} */
    public Revision withDigest(String another) {
        return new Revision(house, name, number, stored, who, why, deleted, another);
    }
}
