package org.splicebook.graph;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.io.UncheckedIOException;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.RecordText;
import org.splicebook.store.StoredHouse;

/** Reads records that are kept. Those read last are remembered by their digest: a record never changes, and reading one takes long. */
final class Records {
    private static final int REMEMBERED = 64;

    private final RecordText text;
    private final Cache<String, House> read =
            Caffeine.newBuilder().maximumSize(REMEMBERED).build();

    Records(RecordText text) {
        this.text = text;
    }

    /** {@return the house of a revision; none where that revision is its end} */
    Optional<StoredHouse> stored(Ledger.Kept kept) {
        return kept.revision().deleted() ? Optional.empty() : Optional.of(new StoredHouse(read(kept), kept.revision()));
    }

    /**
     * {@return the record}
     *
     * @throws ProblemException when it is not what was stored
     */
    House read(Ledger.Kept kept) {
        return read.get(kept.revision().digest(), d -> readChecked(kept));
    }

    private House readChecked(Ledger.Kept kept) {
        String record;
        try {
            record = kept.record().text();
        } catch (UncheckedIOException e) {
            record = "";
        }
        if (!Packed.digest(record).equals(kept.revision().digest())) {
            throw new ProblemException(Problem.error(
                    ProblemKind.INTERNAL,
                    Where.field(kept.revision().house()),
                    "The record of revision " + kept.revision().number() + " of "
                            + kept.revision().house() + " is not what was stored.",
                    "Restore an earlier revision, or the store from its copy."));
        }
        return text.read(record);
    }
}
