package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.RecordedDwelling;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.DemandJson;
import org.splicebook.render.DemandText;
import org.splicebook.render.Json;
import org.splicebook.wiring.Derivation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "demand",
        description =
                "Calculates what a house demands of its service, by every method and edition, line by line with its article; what would still fit, and what would make it fit.")
final class DemandCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption named = new RecordOption();

    @Option(
            names = "--method",
            paramLabel = "METHOD",
            description = "One of standard, optional, existing, metered, units; else all that can be told.")
    private @Nullable String method;

    @Option(names = "--edition", paramLabel = "YEAR", description = "One edition; else all, the house's own in full.")
    private @Nullable Integer edition;

    @Option(
            names = "--units",
            paramLabel = "N",
            description = "So many dwellings like this one in a building, on a wye of 208 V.")
    private int units;

    @Option(names = "--lines", description = "Print the lines of every edition.")
    private boolean lines;

    @Option(
            names = "--intervals",
            paramLabel = "FILE",
            description =
                    "Interval readings of the meter, lines of start,kW: its greatest average is taken for the metered method if its"
                            + " rules allow, and told by the hour.")
    private @Nullable Path intervals;

    @Mixin
    private TellOptions told = new TellOptions();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DemandCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        House record = draft.over(named.read(program).house());
        TellReader reader = new TellReader(record);
        told.tell(reader);
        if (intervals != null) {
            reader.intervals(intervals.toString(), text(intervals));
        }
        Told read = reader.read().get();
        DemandStudy study = DemandStudy.of(
                RecordedDwelling.of(Derivation.derive(record), read),
                DemandStudy.Wanted.read(record, method, edition, reader.metering(), units)
                        .get());
        ObjectNode json = DemandJson.write(record.id(), study);
        String text = DemandText.write(record.said(), study, lines, output.width(terminal));
        terminal.out().print(output.json() ? Json.text(draft.mark(json)) + "\n" : draft.mark(text));
        return ExitCodes.OK;
    }

    private static String text(Path file) {
        try {
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    new Where(file.toString(), 0, 0, ""),
                    "The file cannot be read as text.",
                    "Name a text file of lines start,kW."));
        }
    }
}
