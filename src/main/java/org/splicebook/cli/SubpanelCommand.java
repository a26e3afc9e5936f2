package org.splicebook.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
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
    private @Nullable String of;

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
        House record = named.read(program).house();
        TellReader loads = new TellReader(record);
        told.tell(loads);
        SubpanelReader reader = new SubpanelReader(record, of, loads);
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
        SubpanelPlan plan = Subpanels.plan(
                        record, packs.packs().apply(record), reader.read().get())
                .get();
        List<Page> pages = SubpanelPapers.of(plan);
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(SubpanelText.json(plan, pages)) + "\n"
                                : SubpanelText.write(plan, pages, output.width(terminal)));
        return ExitCodes.OK;
    }
}
