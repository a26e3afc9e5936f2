package org.splicebook.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.archive.ArchiveWriter;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "archive",
        description = {
            "Writes houses with all their revisions, sightings, visits, photographs and documents into one file (zip), while the store runs: the named ones, or the"
                    + " whole store with its properties. The command restore brings it into another store.",
            "With --papers sheets to print go with it (record, directory, emergency): a handover of one unit."
        })
final class ArchiveCommand implements Callable<Integer> {
    private static final List<String> PAPERS = List.of("record", "directory", "emergency");

    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "FILE", description = "The file to write.")
    private Path file = Path.of("archive.zip");

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "HOUSE", description = "Houses; none for the whole store.")
    private List<String> houses = new ArrayList<>();

    @Option(names = "--papers", description = "Put sheets to print beside it; for one house.")
    private boolean papers;

    @Option(
            names = "--residents",
            description = "Put what is personal in as well: who lives there. Whoever has the file can read it.")
    private boolean residents;

    @Option(names = "--force", description = "Overwrite the file.")
    private boolean force;

    @Mixin
    private StoreOptions store = new StoreOptions();

    ArchiveCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        if (Files.exists(file) && !force) {
            throw wrong(ProblemKind.WOULD_LOSE, "The file exists; what is in it would be lost.", "Say --force.");
        }
        if (papers && houses.size() != 1) {
            throw wrong(ProblemKind.BAD_VALUE, "Papers go with the archive of one house.", "Name the house.");
        }
        try (HouseStore opened = program.open(store.choice());
                Bar bar = new Bar("Archiving", terminal)) {
            List<String> ids = houses.isEmpty()
                    ? opened.listHouses().stream().map(Revision::house).toList()
                    : houses;
            List<String> properties = houses.isEmpty()
                    ? opened.properties().list().stream().map(Revision::house).toList()
                    : List.of();
            Map<String, byte[]> sheets = papers ? sheets(opened, houses.get(0)) : Map.of();
            // Written beside it first, so that the file is there whole or not at all.
            Path fresh = Files.createTempFile(
                    file.toAbsolutePath().getParent(), file.getFileName().toString(), ".new");
            try {
                try (OutputStream out = Files.newOutputStream(fresh)) {
                    ArchiveWriter.write(
                            out,
                            opened,
                            ids,
                            properties,
                            new ArchiveWriter.With(sheets, program.files(store.choice()), residents),
                            Instant.now(),
                            bar);
                }
                Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(fresh);
            }
            terminal.out()
                    .println("Wrote " + ids.size() + (ids.size() == 1 ? " house" : " houses") + " and "
                            + properties.size() + (properties.size() == 1 ? " property" : " properties") + " to " + file
                            + ".");
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        return ExitCodes.OK;
    }

    private Map<String, byte[]> sheets(HouseStore opened, String house) {
        StoredHouse stored = opened.findHouse(house).orElseThrow(() -> Houses.notFound(house));
        Map<String, byte[]> sheets = new LinkedHashMap<>();
        PAPERS.forEach(kind -> sheets.put(
                kind + ".pdf", program.sheet(opened, program.files(store.choice()), stored, kind, "", "a4")));
        return sheets;
    }

    private ProblemException wrong(ProblemKind kind, String message, String cure) {
        return new ProblemException(Problem.error(kind, new Where(file.toString(), 0, 0, ""), message, cure));
    }
}
