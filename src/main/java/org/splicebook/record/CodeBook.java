package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * What new work is judged by.
 *
 * @param country whose code
 * @param edition which edition of it
 * @param note free words
 */
public record CodeBook(
        String country, String edition, @Nullable String note) {
    /** A code book without a note. */
    public CodeBook(String country, String edition) {
        this(country, edition, null);
    }
}
