package org.splicebook.cli;

import java.util.concurrent.Callable;
import org.splicebook.wiring.Derivation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "way",
        description =
                "Prints how a load point is fed and where it returns, hop by hop, from a house file or a stored house.")
final class WayCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private RecordOption named = new RecordOption();

    @Parameters(
            index = "1",
            paramLabel = "LOADPOINT",
            description = "A load point, or a device for all of its load points.")
    private String loadPoint = "";

    @Mixin
    private OutputOptions output = new OutputOptions();

    WayCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Houses.Named record = named.read(program);
        output.print(
                WayAnswer.of(Derivation.derive(record.house()), loadPoint, record.revision(), record.stored()),
                terminal);
        return ExitCodes.OK;
    }
}
