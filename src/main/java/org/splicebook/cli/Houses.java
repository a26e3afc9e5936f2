package org.splicebook.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;

/** What commands say about houses that are not there, or are there already. */
final class Houses {
    private static final Pattern REVISION = Pattern.compile("(.+)@([0-9]{1,18})");

    private Houses() {}

    /**
     * What was named.
     *
     * @param house the record
     * @param revision the revision that it is; 0 for a file
     * @param stored when that was stored
     */
    record Named(House house, long revision, Instant stored) {}

    /** {@return the house of a file or folder of them, or a stored one of that id, or its revision after an @} */
    static Named named(String fileOrHouse, Program program, StoreOptions store) {
        if (Files.exists(Path.of(fileOrHouse))) {
            return new Named(HouseFiles.read(Path.of(fileOrHouse)).get(), 0, Instant.EPOCH);
        }
        Matcher said = REVISION.matcher(fileOrHouse);
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse found = (said.matches()
                            ? houses.findRevision(said.group(1), Long.parseLong(said.group(2)))
                            : houses.findHouse(fileOrHouse))
                    .orElseThrow(() -> notFound(fileOrHouse));
            return new Named(
                    found.house(), found.revision().number(), found.revision().stored());
        }
    }

    /** {@return its record alone} */
    static House record(String fileOrHouse, Program program, StoreOptions store) {
        return named(fileOrHouse, program, store).house();
    }

    static ProblemException notFound(String house) {
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.NOWHERE,
                "There is no house '" + house + "', or not in that revision.",
                "The command load stores a house."));
    }

    static Problem stored(String house) {
        return Problem.error(
                ProblemKind.CONFLICT,
                Where.NOWHERE,
                "House '" + house + "' is stored already.",
                "Say --replace to store it as the next revision.");
    }

    static Problem twice(String house) {
        return Problem.error(
                ProblemKind.DUPLICATE,
                Where.NOWHERE,
                "House '" + house + "' is in two of the files.",
                "Give each house an id of its own.");
    }
}
