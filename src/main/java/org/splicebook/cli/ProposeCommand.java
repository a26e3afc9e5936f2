package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.rewire.search.Found;
import org.splicebook.rewire.search.Search;
import org.splicebook.rewire.search.SearchAnswer;
import org.splicebook.rewire.search.Wish;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "propose",
        description = {
            "Looks for changes that cure a finding or give protection, the least costly first: new cable counts most, then boxes to"
                    + " open, then parts, then moves.",
            "Each was judged as a whole house; tempting ones that fail are told with the reason. Ctrl-C ends it with what it found so far."
        })
final class ProposeCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption named = new RecordOption();

    @ArgGroup(multiplicity = "1")
    private Wanted wanted = new Wanted();

    @Option(
            names = "--most",
            paramLabel = "NUMBER",
            defaultValue = "2000",
            description = "How many changes to judge at most (${DEFAULT-VALUE}).")
    private int most;

    @Option(
            names = "--write",
            paramLabel = "FOLDER",
            description = "Write each proposal as a file of moves, for the command draft.")
    private @Nullable Path folder;

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    /** What a change is wanted for. */
    static final class Wanted {
        @Option(
                names = "--cure",
                paramLabel = "FINDING",
                description = "A finding's key, as check tells it: rule/subject.")
        private @Nullable String cure;

        @Option(
                names = "--wish",
                paramLabel = "WISH",
                description = {
                    "ground-fault=LOADPOINT,... or arc-fault=LOADPOINT,...: protect these.",
                    "free=LOADPOINT,...: have them rely on no ground-fault device further up.",
                    "apart=LOADPOINT,LOADPOINT: circuits apart.",
                    "put=DEVICE:KIND: another device in its place, all its terminals served.",
                    "neutral=SWITCH: a switch that has a neutral in its place.",
                    "onto=BREAKER:PANEL: have what a breaker feeds fed from another panel."
                })
        private @Nullable String wish;

        Wish get() {
            return cure != null
                    ? new Wish.Cure(cure)
                    : Wish.parse(wish == null ? "" : wish).get();
        }
    }

    ProposeCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Houses.Named record = named.read(program);
        return propose(record.house(), record.revision(), record.stored());
    }

    private int propose(House record, long revision, Instant stored) {
        Wish wish = wanted.get();
        try (Stopping stopping = new Stopping()) {
            Found found;
            try (Bar bar = new Bar("looking", terminal)) {
                found = Search.of(record, packs.packs().apply(record), wish, Kinds.standard(), most, done -> {
                            bar.at(done, most, "");
                            return !stopping.isAsked();
                        })
                        .get();
            }
            output.print(SearchAnswer.of(found, record, wish, revision, stored), terminal);
            terminal.out().flush();
            write(found, record, wish, revision);
        }
        return ExitCodes.OK;
    }

    private void write(Found found, House record, Wish wish, long revision) {
        if (folder != null) {
            try {
                Files.createDirectories(folder);
                for (Draft d : SearchAnswer.drafts(found, record, wish, revision)) {
                    Files.writeString(folder.resolve(d.name() + ".yaml"), DraftFiles.write(d));
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
