package org.splicebook.cli;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueCalendar;
import org.splicebook.upkeep.DueTests;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "due",
        description = "Tells which tests are due, by their intervals and after changes; or writes a calendar of them.")
final class DueCommand implements Callable<Integer> {
    private static final int CALENDAR_AHEAD = 400;

    private final Program program;
    private final Terminal terminal;

    @Parameters(
            arity = "0..*",
            paramLabel = "NAME=VALUE",
            description = "on=2026-05-01, within=31 (days ahead), tests=all (else usual).")
    private Map<String, String> said = new LinkedHashMap<>();

    @Option(names = "--calendar", description = "Write iCalendar, a year ahead; with --out FILE into a file.")
    private boolean calendar;

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private OutputFile target = new OutputFile();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DueCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            if (!calendar) {
                output.print(houses.ask("due", id, said).get(), terminal);
                return ExitCodes.OK;
            }
            House record =
                    houses.findHouse(id).orElseThrow(() -> Houses.notFound(id)).house();
            LocalDate today = LocalDate.now(ZoneId.systemDefault());
            boolean all = "all".equals(said.get("tests"));
            List<Due> due = DueTests.of(record, today, CALENDAR_AHEAD, all).stream()
                    .filter(Due::isWanted)
                    .toList();
            String text = DueCalendar.of(Map.of(record, due), today);
            target.write(terminal, new String(text.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8));
        }
        return ExitCodes.OK;
    }
}
