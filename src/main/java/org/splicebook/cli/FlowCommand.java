package org.splicebook.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.CaseReader;
import org.splicebook.loadflow.FlowResult;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.SpiceText;
import org.splicebook.record.House;
import org.splicebook.render.FlowJson;
import org.splicebook.render.FlowText;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "flow",
        description =
                "Prints volts, amperes, residuals and trips of a house in one state: switches, loads and faults as said.")
final class FlowCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Option(
            names = "--case",
            paramLabel = "CASE",
            description =
                    "What is on: typical (the default), all-on, nothing-on, heaters, or rated:main.2+4 for one circuit at its rating.")
    private String kept = "typical";

    @Option(
            names = "--load",
            paramLabel = "WHERE=LOAD",
            description = "A load at a load point, device or place: 1500 W, 300 W power 0.8, 12 A, 9.6 ohm, off.")
    private Map<String, String> loads = new LinkedHashMap<>();

    @Option(names = "--lever", paramLabel = "DEVICE=POSITION", description = "A lever's position.")
    private Map<String, String> levers = new LinkedHashMap<>();

    @Option(
            names = "--open",
            paramLabel = "NAME",
            description = "Open a breaker (main.2+4), pole (main.4), main (main.main) or device.")
    private List<String> open = List.of();

    @Option(names = "--close", paramLabel = "NAME", description = "Close one.")
    private List<String> close = List.of();

    @Option(
            names = "--fault",
            paramLabel = "FAULT",
            description =
                    "open K1.white@2, open service.n, open-joint bench:K1.white, loose K1.white@2 2 ohm, touch A B 0.1 ohm, leak A B 5 mA, on-leg main.3 main.a.")
    private List<String> faults = List.of();

    @Option(names = "--ohms", paramLabel = "WIRE=OHMS", description = "Measured ohms of a wire or connection.")
    private Map<String, String> ohms = new LinkedHashMap<>();

    @Option(names = "--ideal", description = "Without resistance, but for what is given in ohms.")
    private boolean ideal;

    @Option(
            names = "--celsius",
            paramLabel = "DEGREES",
            description = "Temperature of the wires; 75 where nothing is said.")
    private @Nullable Double celsius;

    @Option(
            names = "--amperes",
            paramLabel = "LEAST",
            description = "List every wire and connection with at least so many amperes.")
    private @Nullable Double amperes;

    @Option(names = "--netlist", description = "Print the circuit as a netlist for general circuit simulators instead.")
    private boolean netlist;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    FlowCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        LoadFlow flow = LoadFlow.of(record());
        LoadCase state = state(flow);
        if (netlist) {
            terminal.out().print(SpiceText.of(flow.solve(state).get()));
            return ExitCodes.OK;
        }
        FlowResult result = FlowResult.of(flow, state);
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(FlowJson.write(result)) + "\n"
                                : FlowText.write(result, amperes, output.width(terminal)));
        return ExitCodes.OK;
    }

    private House record() {
        if (Files.exists(Path.of(house))) {
            return HouseFiles.read(Path.of(house)).get();
        }
        try (HouseStore houses = program.open(store.choice())) {
            return houses.findHouse(house)
                    .orElseThrow(() -> Houses.notFound(house))
                    .house();
        }
    }

    private LoadCase state(LoadFlow flow) {
        CaseReader reader = new CaseReader(flow);
        reader.base(kept);
        loads.forEach(reader::load);
        levers.forEach(reader::lever);
        open.forEach(reader::open);
        close.forEach(reader::close);
        ohms.forEach(reader::ohms);
        faults.forEach(reader::fault);
        if (ideal) {
            reader.ideal();
        }
        if (celsius != null) {
            reader.celsius(celsius);
        }
        return reader.read().get();
    }
}
