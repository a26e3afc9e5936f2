package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.schedule.Goal;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.Papers;
import org.splicebook.panelplan.upgrade.Prices;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.panelplan.upgrade.Upgrades;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.panelplan.upgrade.WantedReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.PlanJson;
import org.splicebook.render.PlanText;
import org.splicebook.render.PlanWorkbook;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "plan",
        description = {
            "Plans a new panel in the place of one of today's: which breaker goes into which space, proved; what each circuit asks for;"
                    + " every wire from terminal to terminal, parts, shut-off, order of work, readings, directory.",
            "The change is a draft: --write puts its moves and the paper into a folder. Work in panels is for licensed people."
        })
final class PlanCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption record = new RecordOption();

    @Option(
            names = "--panel",
            required = true,
            paramLabel = "KIND",
            description = "What is hung: amperes and spaces, for example 200-40.")
    private String kind = "";

    @Option(
            names = "--of",
            paramLabel = "PANEL",
            description = "Today's panel that goes; the one at the service otherwise.")
    private @Nullable String of;

    @Option(
            names = "--protect",
            paramLabel = "WHAT",
            description = "needed: as today, and what is new; all: what today's edition asks of new work.")
    private String protect = "needed";

    @Option(names = "--lock", paramLabel = "CIRCUIT=SPACE", description = "A circuit that has to go there: 9=5+7.")
    private Map<String, String> locks = new LinkedHashMap<>();

    @Option(names = "--keep", split = ",", paramLabel = "SPACE", description = "Spaces that stay free: --keep 1,3.")
    private List<Integer> kept = List.of();

    @Option(names = "--entry", paramLabel = "WHERE", description = "Where cables come in: top, bottom, unknown.")
    private String entry = "unknown";

    @Option(names = "--slack", paramLabel = "LENGTH", description = "How much farther than today wires reach: 6 in.")
    private @Nullable String slack;

    @Option(
            names = "--lower",
            paramLabel = "LENGTH",
            description = "How much lower the new panel's first row is: 2 in.")
    private @Nullable String lower;

    @Option(names = "--backfeed", paramLabel = "AMPERES", description = "What solar or a battery feeds back: 24 A.")
    private @Nullable String backfeed;

    @Option(names = "--place", paramLabel = "LOAD=PLACE", description = "Where a new load goes: --place ev=garage.")
    private Map<String, String> places = new LinkedHashMap<>();

    @Option(
            names = "--length",
            paramLabel = "LOAD=LENGTH",
            description = "The length of its cable: --length \"ev=18 m\".")
    private Map<String, String> lengths = new LinkedHashMap<>();

    @Option(names = "--prices", paramLabel = "FILE", description = "A price list: lines of part; price.")
    private @Nullable Path prices;

    @Option(
            names = "--seconds",
            paramLabel = "NUMBER",
            description = "How long to search at most (${DEFAULT-VALUE}).",
            defaultValue = "4.5")
    private double seconds;

    @Option(
            names = "--write",
            paramLabel = "FOLDER",
            description = "Write the moves (for draft), and the paper as PDF, XLSX and JSON.")
    private @Nullable Path folder;

    @Mixin
    private TellOptions told = new TellOptions();

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    PlanCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Houses.Named named = record.read(program);
        return plan(named.house(), named.revision() == 0 ? null : named.revision());
    }

    private int plan(House house, @Nullable Long revision) {
        TellReader loads = new TellReader(house);
        told.tell(loads);
        WantedReader reader = new WantedReader(house, kind, of, loads);
        reader.protect(protect);
        locks.forEach(reader::lock);
        kept.forEach(reader::keep);
        reader.entry(entry);
        if (slack != null) {
            reader.slack(slack);
        }
        if (lower != null) {
            reader.lower(lower);
        }
        if (backfeed != null) {
            reader.backfeed(backfeed);
        }
        places.forEach(reader::place);
        lengths.forEach(reader::length);
        reader.seconds(seconds);
        reader.year(LocalDate.now(ZoneId.systemDefault()).getYear());
        Wanted wanted = reader.read().get();
        Prices list = prices == null
                ? Prices.none()
                : Prices.read(prices.toString(), text(prices)).get();
        List<Goal> goals = List.of(Goal.values());
        UpgradePlan plan;
        try (Bar bar = new Bar("placing", terminal)) {
            plan = Upgrades.plan(
                            house,
                            packs.packs().apply(house),
                            wanted,
                            revision,
                            (goal, value, bound) ->
                                    bar.at(goals.indexOf(goal), goals.size(), goal.word() + " " + value))
                    .get();
        }
        List<Page> pages = Papers.of(plan, list);
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(PlanJson.write(plan, pages)) + "\n"
                                : PlanText.write(plan, pages, output.width(terminal)));
        if (folder != null) {
            write(folder, plan, pages);
        }
        return ExitCodes.OK;
    }

    private void write(Path to, UpgradePlan plan, List<Page> pages) {
        String name = plan.draft().name();
        try {
            Files.createDirectories(to);
            Files.writeString(to.resolve(name + ".yaml"), DraftFiles.write(plan.draft()));
            Files.writeString(to.resolve(name + ".json"), Json.text(PlanJson.write(plan, pages)) + "\n");
            Files.write(to.resolve(name + ".xlsx"), PlanWorkbook.write(plan, pages));
            Files.write(
                    to.resolve(name + ".pdf"),
                    program.paper(plan, pages, "Planned " + LocalDate.now(ZoneId.systemDefault()) + "."));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (!output.json()) {
            terminal.out().println("Wrote " + name + " as moves (yaml), pdf, xlsx and json to " + to + ".");
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    new Where(file.toString(), 0, 0, ""),
                    "The file cannot be read as text.",
                    "Name a text file."));
        }
    }
}
