package org.splicebook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "diagnose",
        description = {
            "Says what may be wrong by what was seen: suspects ranked, what each foretells, the next test with covers on.",
            "Symptoms, each in quotes: \"dead: living-2\" \"live: hall-1\" \"dims: hall-light when living-3\""
                    + " \"trips: main.9 when living-3\" \"volts at living-2: hn=2 hg=120 ng=118\""
                    + " \"volts between living-1 and dining-1: 240\" \"last touched: living-east\"."
        })
final class DiagnoseCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "SYMPTOM", description = "What was seen.")
    private List<String> symptoms = new ArrayList<>();

    @Option(
            names = "--on",
            paramLabel = "LOADS",
            description = "What is switched on meanwhile: typical, everything or nothing.")
    private String on = "typical";

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DiagnoseCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            Map<String, String> asked = Map.of("symptoms", String.join("; ", symptoms), "on", on);
            output.print(houses.ask("diagnose", house.of(houses), asked).get(), terminal);
        }
        return ExitCodes.OK;
    }
}
