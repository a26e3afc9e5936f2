package org.splicebook.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.splicebook.archive.Archive;
import org.splicebook.store.Revision;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "restore",
        description = {
            "Brings an archive into a store that does not have its houses: every revision with who, when and why. Everything in it is"
                    + " verified before anything is stored, and compared with the store afterwards.",
            "With --check it is only verified."
        })
final class RestoreCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "FILE", description = "The archive.")
    private Path file = Path.of("archive.zip");

    @Option(names = "--check", description = "Only verify the archive; store nothing.")
    private boolean check;

    @Mixin
    private StoreOptions store = new StoreOptions();

    RestoreCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (check) {
            try (Archive archive = Archive.open(file)) {
                archive.verify();
                terminal.out()
                        .println("The archive of " + archive.made() + " is whole: "
                                + archive.houses().size() + " houses, "
                                + archive.properties().size() + " properties.");
                return ExitCodes.OK;
            }
        }
        try (Bar bar = new Bar("Restoring", terminal)) {
            List<Revision> made = program.restore(store.choice(), file, bar);
            made.forEach(r -> terminal.out()
                    .println("Restored " + r.house() + " (" + r.name() + ") up to revision " + r.number() + "."));
        }
        return ExitCodes.OK;
    }
}
