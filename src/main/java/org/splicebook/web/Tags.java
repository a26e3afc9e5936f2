package org.splicebook.web;

import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.Revision;

/** Entity tags: the revision's number and the record's digest. A write says with one what it was made from. */
final class Tags {
    private static final String ANY = "*";

    private Tags() {}

    /** {@return the tag of a revision's YAML} */
    static String of(Revision r) {
        return "\"" + r.number() + "-" + r.digest() + "\"";
    }

    /** {@return the tag of a revision in that format: two forms of one revision have unlike strong tags} */
    static String of(Revision r, Body.Format format) {
        String tag = of(r);
        return format == Body.Format.YAML ? tag : tag.substring(0, tag.length() - 1) + "-json\"";
    }

    /** {@return whether a header's list of tags names the revision, in whichever format} */
    static boolean names(String header, Revision r) {
        return Arrays.stream(header.split(","))
                .map(String::trim)
                .anyMatch(t -> t.equals(ANY) || t.equals(of(r)) || t.equals(of(r, Body.Format.JSON)));
    }

    /** {@return the revision that a write was made from, 0 for none, from its If-Match and If-None-Match} */
    static long expected(@Nullable String ifMatch, @Nullable String ifNoneMatch, Optional<Revision> newest) {
        if (ifMatch != null) {
            return newest.filter(r -> names(ifMatch, r))
                    .orElseThrow(() -> stale(newest))
                    .number();
        }
        if (ifNoneMatch != null && ifNoneMatch.trim().equals(ANY)) {
            if (newest.isPresent()) {
                throw stale(newest);
            }
            return 0;
        }
        throw Failures.failure(
                ProblemKind.PRECONDITION_MISSING,
                "The write does not say which revision it was made from.",
                "Send If-Match with the ETag of the revision you read, or If-None-Match: * for a new house.");
    }

    private static ProblemException stale(Optional<Revision> newest) {
        String found = newest.map(r -> "The newest revision is " + r.number() + ", with ETag " + of(r) + ".")
                .orElse("There is no such house.");
        return new ProblemException(Problem.error(
                ProblemKind.STALE, Where.NOWHERE, found, "Read it again, make the change there, and send it again."));
    }
}
