package org.splicebook.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** The house that a command is about: a file or folder of them, or a stored one, its newest revision or the one behind an @. */
final class RecordOption {
    private static final Pattern REVISION = Pattern.compile("(.+)@([0-9]{1,18})");

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id, or its revision: house@3.")
    private String house = "";

    @Mixin
    private StoreOptions store = new StoreOptions();

    /**
     * What was named.
     *
     * @param house the record
     * @param revision the revision that it is; 0 for a file
     * @param stored when that was stored
     */
    record Named(House house, long revision, Instant stored) {}

    /** {@return the house that was named} */
    Named read(Program program) {
        if (Files.exists(Path.of(house))) {
            return new Named(HouseFiles.read(Path.of(house)).get(), 0, Instant.EPOCH);
        }
        try (HouseStore houses = program.open(store.choice())) {
            Matcher said = REVISION.matcher(house);
            StoredHouse found = (said.matches()
                            ? houses.findRevision(said.group(1), Long.parseLong(said.group(2)))
                            : houses.findHouse(house))
                    .orElseThrow(() -> Houses.notFound(house));
            return new Named(
                    found.house(), found.revision().number(), found.revision().stored());
        }
    }
}
