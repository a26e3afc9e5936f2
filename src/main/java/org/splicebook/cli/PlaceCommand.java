package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.Draft;
import org.splicebook.rewire.place.Costs;
import org.splicebook.rewire.place.Placement;
import org.splicebook.rewire.place.PlacementAnswer;
import org.splicebook.rewire.place.Placements;
import org.splicebook.rewire.place.Wanted;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "place",
        description = {
            "Which protective devices, where, cover what must be covered at the least cost: a breaker in the panel against a receptacle at"
                    + " the first outlet against one further on.",
            "What must be covered is what a check finds without the protection that it asks for, or the load points that you name. Every"
                    + " place was tried on the wiring; what cannot be covered is told with the reason."
                    + " Ctrl-C ends it with what it found so far."
        })
final class PlaceCommand implements Callable<Integer> {
    private static final String NAME = "placement";

    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption record = new RecordOption();

    @Option(
            names = "--against",
            split = ",",
            paramLabel = "WHAT",
            description = "ground-fault, arc-fault, or both (the default).")
    private List<String> against = List.of();

    @Option(
            names = "--points",
            split = ",",
            paramLabel = "LOADPOINT",
            description = "These are to be covered, whatever a check says.")
    private List<String> points = List.of();

    @Option(names = "--asked", description = "Cover also what a check only asks about.")
    private boolean asked;

    @Option(
            names = "--costs",
            paramLabel = "FILE",
            description = "Costs of your own, as whole figures: breaker: {1 ground-fault: 60}, open: {box: 20}.")
    private @Nullable Path costs;

    @Option(names = "--write", paramLabel = "FILE", description = "Write it as a file of moves, for the command draft.")
    private @Nullable Path file;

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    PlaceCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Houses.Named named = record.read(program);
        Costs figures = costs == null ? Costs.standard() : Costs.read(costs).get();
        Wanted wanted = Wanted.parse(against, points, asked).get();
        try (Stopping stopping = new Stopping()) {
            print(place(named, figures, wanted, stopping), named);
            terminal.out().flush();
        }
        return ExitCodes.OK;
    }

    private Placement place(Houses.Named named, Costs figures, Wanted wanted, Stopping stopping) {
        try (Bar bar = new Bar("placing", terminal)) {
            return Placements.of(
                            named.house(),
                            packs.packs().apply(named.house()),
                            Kinds.standard(),
                            figures,
                            wanted,
                            (done, all) -> {
                                bar.at(done, all, "");
                                return !stopping.isAsked();
                            })
                    .get();
        }
    }

    private void print(Placement placement, Houses.Named named) {
        output.print(PlacementAnswer.of(placement, named.house(), named.revision(), named.stored()), terminal);
        Draft draft = PlacementAnswer.draft(placement, named.house(), NAME, named.revision());
        if (file != null && draft != null) {
            try {
                Files.writeString(file, DraftFiles.write(draft));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
