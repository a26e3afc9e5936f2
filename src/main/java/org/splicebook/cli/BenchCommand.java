package org.splicebook.cli;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.cli.BenchRun.Amount;
import org.splicebook.cli.BenchRun.Part;
import org.splicebook.render.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(
        name = "bench",
        description =
                "Measures the program on this machine with the sample house, in a store of its own that it takes away afterwards.")
final class BenchCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Spec
    @SuppressWarnings("NullAway.Init") // Set before the command is called.
    private CommandSpec spec;

    @Option(
            names = "--only",
            paramLabel = "PART",
            split = ",",
            description =
                    "Only these parts: start, file, questions, pages, copies, survey, portfolio. All but the last, which is long, without it.")
    private Set<Part> parts = EnumSet.complementOf(EnumSet.of(Part.PORTFOLIO));

    @Option(names = "--question", paramLabel = "ID", description = "Only this question; may be said several times.")
    private Set<String> questions = new LinkedHashSet<>();

    @Option(names = "--starts", paramLabel = "NUMBER", description = "Cold starts (default: ${DEFAULT-VALUE}).")
    private int starts = 3;

    @Option(
            names = "--files",
            paramLabel = "NUMBER",
            description = "How often the house file is stored (default: ${DEFAULT-VALUE}).")
    private int files = 30;

    @Option(
            names = "--calls",
            paramLabel = "NUMBER",
            description = "How often each question is asked (default: ${DEFAULT-VALUE}).")
    private int calls = 2000;

    @Option(
            names = "--warm-up",
            paramLabel = "NUMBER",
            description = "How often before that, not measured (default: ${DEFAULT-VALUE}).")
    private int warmUp = 500;

    @Option(
            names = "--copies",
            paramLabel = "NUMBER",
            description = "Houses in the store for the last part (default: ${DEFAULT-VALUE}).")
    private int copies = 1000;

    @Option(
            names = "--seconds",
            paramLabel = "NUMBER",
            description = "The longest that one question is measured (default: ${DEFAULT-VALUE}).")
    private int seconds = 60;

    @Option(
            names = "--units",
            paramLabel = "NUMBER",
            description = "Made-up apartments of the portfolio (default: ${DEFAULT-VALUE}).")
    private int units = 10_000;

    @Option(
            names = "--keep",
            paramLabel = "FOLDER",
            description = "Keep the portfolio's store there; named again, loading goes on where it ended.")
    private @Nullable Path keep;

    @Mixin
    private OutputOptions output = new OutputOptions();

    BenchCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        within("--starts", starts, 1, 100);
        within("--files", files, 1, 10_000);
        within("--calls", calls, 1, 1_000_000);
        within("--warm-up", warmUp, 0, 1_000_000);
        within("--copies", copies, 2, 100_000);
        within("--seconds", seconds, 1, 3600);
        within("--units", units, 1, 100_000);
        Amount amount = new Amount(parts, questions, starts, files, calls, warmUp, copies, seconds, units, keep);
        BenchReport report = new BenchRun(program, terminal, amount).measure();
        if (output.json()) {
            terminal.out().println(Json.text(report.json()));
        } else {
            report.lines(output.width(terminal)).forEach(terminal.out()::println);
        }
        return report.failed.isEmpty() ? ExitCodes.OK : ExitCodes.FOUND;
    }

    private void within(String option, int value, int least, int most) {
        if (value < least || value > most) {
            throw new ParameterException(
                    spec.commandLine(), option + " is " + value + "; it can be " + least + " to " + most + ".");
        }
    }
}
