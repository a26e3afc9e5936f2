package org.splicebook.cli;

import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.loadflow.FlowResult;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.SpiceText;
import org.splicebook.record.House;
import org.splicebook.render.FlowJson;
import org.splicebook.render.FlowReportJson;
import org.splicebook.render.FlowReportText;
import org.splicebook.render.FlowText;
import org.splicebook.render.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "flow",
        description =
                "Prints volts, amperes, residuals and trips of a house in one state, or one report on it: switches, loads and faults as said.")
final class FlowCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Mixin
    private CaseOptions state = new CaseOptions();

    @Mixin
    private ReportOptions report = new ReportOptions();

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
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    FlowCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        LoadFlow flow = LoadFlow.of(draft.over(Houses.record(house, program, store)));
        LoadCase said = state.read(flow);
        if (netlist) {
            terminal.out().print(SpiceText.of(flow.solve(said).get()));
            return ExitCodes.OK;
        }
        if (report.isAsked()) {
            terminal.out().print(report(flow, said));
            return ExitCodes.OK;
        }
        FlowResult result = FlowResult.of(flow, said);
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(draft.mark(FlowJson.write(result))) + "\n"
                                : draft.mark(FlowText.write(result, amperes, output.width(terminal))));
        return ExitCodes.OK;
    }

    private String report(LoadFlow flow, LoadCase said) {
        Report<?> made = report.make(flow, said);
        House record = flow.circuit().house();
        FlowReport which = Objects.requireNonNull(report.wanted());
        return output.json()
                ? Json.text(draft.mark(FlowReportJson.write(record, which, made))) + "\n"
                : draft.mark(FlowReportText.write(record, which, made, output.width(terminal)));
    }
}
