package org.splicebook.record;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What may be said of anything in the record: how it is known, its age, a note.
 *
 * @param basis how it is known; null takes the default of what it stands in
 * @param since the year or date it was put in, as written
 * @param before a year or date before which it was put in, as written
 * @param permit the permit it was done under
 * @param note free words; they survive a rewrite
 * @param photos photographs of it
 * @param documents documents about it, each a PDF
 */
public record Provenance(
        @Nullable Basis basis,
        @Nullable String since,
        @Nullable String before,
        @Nullable String permit,
        @Nullable String note,
        List<Photo> photos,
        List<Photo> documents) {
    /** Nothing said. */
    public static final Provenance NONE = new Provenance(null, null, null, null, null);

    public Provenance {
        photos = List.copyOf(photos);
        documents = List.copyOf(documents);
    }

    /** What is said of something without photographs and documents. */
    public Provenance(
            @Nullable Basis basis,
            @Nullable String since,
            @Nullable String before,
            @Nullable String permit,
            @Nullable String note) {
        this(basis, since, before, permit, note, List.of(), List.of());
    }

    /** {@return the same with these photographs} */
    public Provenance withPhotos(List<Photo> others) {
        return new Provenance(basis, since, before, permit, note, others, documents);
    }

    /** {@return the same with these documents} */
    public Provenance withDocuments(List<Photo> others) {
        return new Provenance(basis, since, before, permit, note, photos, others);
    }

    /** {@return the basis said here, or the given default} */
    public Basis basisOr(Basis otherwise) {
        return basis == null ? otherwise : basis;
    }
}
