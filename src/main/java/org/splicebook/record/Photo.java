package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * A photograph of a part of the record, or a document about it. What is in it is kept beside the records, under the hash of what is in it.
 *
 * @param file the name under which it is kept: SHA-256 in 64 hexadecimal digits
 * @param date the day it was taken or brought in, ISO 8601; null when not said
 * @param note what it shows
 */
public record Photo(
        String file, @Nullable String date, @Nullable String note) {
    /** {@return what stands under it: what it is of, its day and its note where they are known} */
    public String said(String of) {
        return of + (date == null ? "" : ", " + date) + (note == null ? "" : ": " + note);
    }
}
