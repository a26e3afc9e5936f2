package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.SubpanelPapers;
import org.splicebook.panelplan.upgrade.SubpanelPlan;
import org.splicebook.panelplan.upgrade.SubpanelReader;
import org.splicebook.panelplan.upgrade.Subpanels;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.SubpanelText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "subpanel",
        description =
                "Chooses which circuits move to a panel that is backed up by a source of its own, or to one that makes room: whole sets only, within what source, legs, spaces and starting motors bear, proved the best by what is wanted.")
final class SubpanelCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption named = new RecordOption();

    @Option(
            names = "--of",
            paramLabel = "PANEL",
            description = "The panel whose circuits may move; the one at the service otherwise.")
    private @Nullable String from;

    @Option(names = "--spaces", paramLabel = "N", description = "Spaces of the further panel (${DEFAULT-VALUE}).")
    private int spaces = 12;

    @Option(names = "--source", paramLabel = "POWER", description = "What its source gives for hours: 7.6 kW.")
    private @Nullable String source;

    @Option(names = "--surge", paramLabel = "POWER", description = "What it gives while a motor starts: 12 kW.")
    private @Nullable String surge;

    @Option(names = "--volts", paramLabel = "SYSTEM", description = "120 or 120/240 (${DEFAULT-VALUE}).")
    private String volts = "120/240";

    @Option(
            names = "--want",
            split = ",",
            paramLabel = "WHAT",
            description = "What is to stay on, the most wanted first: devices, what hangs on them, breakers.")
    private List<String> want = List.of();

    @Option(names = "--never", split = ",", paramLabel = "BREAKER", description = "Breakers that stay where they are.")
    private List<String> never = List.of();

    @Option(names = "--free", paramLabel = "N", description = "For room: spaces that are to become free.")
    private @Nullable Integer free;

    @Option(names = "--feeder", paramLabel = "AMPERES", description = "For room: the feeder's breaker, 60 A.")
    private @Nullable String feeder;

    @Option(
            names = "--write",
            paramLabel = "FOLDER",
            description = "Write the moves that make it into a folder, as a file for draft.")
    private @Nullable Path folder;

    @Mixin
    private TellOptions told = new TellOptions();

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    SubpanelCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Houses.Named of = named.read(program);
        House record = of.house();
        TellReader loads = new TellReader(record);
        told.tell(loads);
        SubpanelReader reader = new SubpanelReader(record, from, loads);
        reader.spaces(spaces);
        reader.volts(volts);
        if (source != null) {
            reader.source(source);
        }
        if (surge != null) {
            reader.surge(surge);
        }
        if (feeder != null) {
            reader.feeder(feeder);
        }
        if (free != null) {
            reader.free(free);
        }
        want.forEach(reader::want);
        never.forEach(reader::never);
        reader.year(LocalDate.now(ZoneId.systemDefault()).getYear());
        SubpanelPlan plan = Subpanels.plan(
                        record,
                        packs.packs().apply(record),
                        reader.read().get(),
                        of.revision() == 0 ? null : of.revision())
                .get();
        List<Page> pages = SubpanelPapers.of(plan);
        SubpanelPlan.Drafted drafted = plan.drafted();
        String moves = drafted == null ? null : DraftFiles.write(drafted.draft());
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(SubpanelText.json(plan, pages).put("draftFile", moves)) + "\n"
                                : SubpanelText.write(plan, pages, output.width(terminal)));
        if (folder != null && drafted != null && moves != null) {
            write(folder, drafted.draft().name() + ".yaml", moves);
        }
        return ExitCodes.OK;
    }

    private void write(Path to, String file, String moves) {
        try {
            Files.createDirectories(to);
            Files.writeString(to.resolve(file), moves);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (!output.json()) {
            terminal.out().println("Wrote the moves to " + to.resolve(file) + ".");
        }
    }
}
