package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.CaseReader;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import picocli.CommandLine.Option;

/** What state the house is in: loads, levers, breakers, faults. */
final class CaseOptions {
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
                    "open K1.white@2, open service.n, open-joint bench:K1.white, loose K1.white@2 2 ohm, touch A B 0.1 ohm, leak A B 5 mA, on-leg main.3 main.a, stuck main.3.")
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

    /**
     * {@return the state}
     *
     * @throws org.splicebook.problem.ProblemException with all that is wrong in what was said
     */
    LoadCase read(LoadFlow flow) {
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
