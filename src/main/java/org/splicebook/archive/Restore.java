package org.splicebook.archive;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.visits.Beside;

/** Brings an archive into a store: first everything is read and held to its digests, then stored house by house, then compared. */
public final class Restore {
    private Restore() {}

    /** Restores an archive that holds no photographs and documents. */
    public static List<Revision> all(Archive archive, HouseStore store, Progress progress) {
        return all(archive, store, Files.NONE, progress);
    }

    /**
     * Reads all of an archive and looks whether it can be restored; nothing is stored.
     *
     * @throws ProblemException when something in it is wrong, or is in the store already
     */
    public static void check(Archive archive, HouseStore store) {
        archive.verify();
        List<Problem> taken = taken(archive, store);
        if (!taken.isEmpty()) {
            throw new ProblemException(taken);
        }
    }

    /**
     * Restores all that the archive holds.
     *
     * @param files where photographs and documents are kept
     * @return the newest revisions, houses first
     * @throws ProblemException when something in it is wrong, or is in the store already: then nothing was stored; or when the store
     *     refuses a house on the way, or has it otherwise than archived: those before it are stored, each whole, and named
     */
    public static List<Revision> all(Archive archive, HouseStore store, Files files, Progress progress) {
        check(archive, store);
        // Before the records that speak of them: what no record speaks of does no harm.
        archive.files().forEach(name -> {
            String kept = files.keep(archive.file(name));
            same(kept.equals(name), name, 0);
        });
        List<Revision> made = new ArrayList<>();
        for (String id : archive.houses()) {
            Past past = archive.house(id);
            made.add(store.restore(past).get());
            compare(past, store);
            same(
                    past.newest().house() == null || DraftLines.restore(store, id, archive.drafts(id)),
                    id,
                    past.newest().revision().number());
            for (String kind : List.of(Papers.VISIT, Papers.RESIDENT)) {
                List<Paper> papers = archive.beside(kind, id);
                Beside.restore(store.papers(), papers);
                same(
                        papers.isEmpty() || new HashSet<>(store.papers().list(kind, id)).containsAll(papers),
                        id,
                        past.newest().revision().number());
            }
            progress.at(made.size(), archive.houses().size(), id);
        }
        for (String id : archive.properties()) {
            List<StoredProperty> past = archive.property(id);
            made.add(store.properties().restore(past).get());
            for (StoredProperty p : past) {
                boolean isSame = store.properties()
                        .findRevision(id, p.revision().number())
                        .filter(s -> s.property().equals(p.property()))
                        .isPresent();
                same(isSame, id, p.revision().number());
            }
        }
        return made;
    }

    private static List<Problem> taken(Archive archive, HouseStore store) {
        Set<String> properties = new HashSet<>();
        store.properties().list().forEach(r -> properties.add(r.house()));
        List<Problem> taken = new ArrayList<>();
        archive.houses().stream()
                .filter(id -> !store.revisions(id).isEmpty())
                .forEach(id -> taken.add(there("house", id)));
        archive.properties().stream().filter(properties::contains).forEach(id -> taken.add(there("property", id)));
        return taken;
    }

    private static Problem there(String what, String id) {
        return Problem.error(
                ProblemKind.CONFLICT,
                Where.field(id),
                "The " + what + " " + id + " is in the store, or was and was deleted.",
                "Nothing was stored. Restore into a store that has never held it.");
    }

    private static void compare(Past past, HouseStore store) {
        for (Past.Step s : past.steps()) {
            Optional<StoredHouse> found =
                    store.findRevision(past.house(), s.revision().number());
            boolean isSame = s.house() == null
                    ? found.isEmpty()
                    : found.filter(f -> f.house().equals(s.house())
                                    && f.revision().stored().equals(s.revision().stored())
                                    && f.revision().who().equals(s.revision().who()))
                            .isPresent();
            same(isSame, past.house(), s.revision().number());
        }
        if (past.newest().house() != null) {
            same(
                    new HashSet<>(store.sightings(past.house())).containsAll(past.appended()),
                    past.house(),
                    past.newest().revision().number());
        }
    }

    private static void same(boolean isSame, String id, long number) {
        if (!isSame) {
            throw new ProblemException(Problem.error(
                    ProblemKind.INTERNAL,
                    Where.field(id),
                    "Revision " + number + " of " + id + " is in the store otherwise than in the archive.",
                    "Keep the archive, and verify the store."));
        }
    }
}
