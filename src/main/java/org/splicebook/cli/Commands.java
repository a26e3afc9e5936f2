package org.splicebook.cli;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.render.ProblemText;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.ParseResult;

/** All commands, put together and run. */
@Command(
        name = "splicebook",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description =
                "Keeps the wiring record of houses and answers what every wire belongs to before a cover comes off.")
public final class Commands {
    private Commands() {}

    /**
     * Runs one command.
     *
     * @return its exit code
     */
    public static int run(Program program, Terminal terminal, String... args) {
        CommandLine line = new CommandLine(new Commands());
        for (Object command : List.of(
                new StartCommand(program, terminal),
                new ServeCommand(program, terminal),
                new LoadCommand(program, terminal),
                new AskCommand(program, terminal),
                new ShutOffCommand(program, terminal),
                new DarkCommand(program, terminal),
                new DiagnoseCommand(program, terminal),
                new SightCommand(program, terminal),
                new QuestionsCommand(program, terminal),
                new WayCommand(program, terminal),
                new FlowCommand(program, terminal),
                new CheckCommand(program, terminal),
                new CheckAllCommand(program, terminal),
                new AcceptCommand(program, terminal),
                new FillCommand(program, terminal),
                new DemandCommand(program, terminal),
                new PlanCommand(program, terminal),
                new SubpanelCommand(program, terminal),
                new DrawCommand(program, terminal),
                new DraftCommand(program, terminal),
                new SheetCommand(program, terminal),
                new ProposeCommand(program, terminal),
                new PlaceCommand(program, terminal),
                new DirectoryCommand(program, terminal),
                new SurveyCommand(program, terminal),
                new CheckFileCommand(terminal),
                new ExportCommand(program, terminal),
                new ImportCommand(program, terminal),
                new PropertyCommand(program, terminal),
                new VisitCommand(program, terminal),
                new ResidentCommand(program, terminal),
                new TestCommand(program, terminal),
                new DueCommand(program, terminal),
                new DiffCommand(program, terminal),
                new ArchiveCommand(program, terminal),
                new RestoreCommand(program, terminal),
                new VerifyStoreCommand(program, terminal),
                new UserCommand(program, terminal),
                new TokenCommand(program, terminal),
                new InviteCommand(program, terminal),
                new AuditCommand(program, terminal),
                new CypherCommand(program, terminal),
                new BenchCommand(program, terminal),
                new AutoComplete.GenerateCompletion())) {
            line.addSubcommand(command);
        }
        CommandLine draft = Objects.requireNonNull(line.getSubcommands().get("draft"));
        KeptDraftCommands.all(program, terminal).forEach(draft::addSubcommand);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.getCommandSpec().version("splicebook " + program.version());
        Stream.concat(line.getSubcommands().values().stream(), draft.getSubcommands().values().stream())
                .forEach(c ->
                        c.getCommandSpec().mixinStandardHelpOptions(true).version("splicebook " + program.version()));
        line.getCommandSpec()
                .usageMessage()
                .exitCodeListHeading("Exit codes:%n")
                .exitCodeList(ExitCodes.said());
        line.setUsageHelpAutoWidth(false).setUsageHelpWidth(Math.max(55, terminal.width()));
        line.setOut(terminal.out()).setErr(terminal.err());
        line.setExecutionExceptionHandler((e, command, parsed) -> failed(e, parsed, terminal));
        int code = line.execute(args);
        terminal.out().flush();
        terminal.err().flush();
        return code;
    }

    private static int failed(Exception e, ParseResult parsed, Terminal terminal) {
        List<Problem> problems = e instanceof ProblemException p
                ? p.problems()
                : List.of(Problem.error(
                        ProblemKind.INTERNAL,
                        Where.NOWHERE,
                        "The program failed: " + e + ".",
                        "SPLICEBOOK_LOG=DEBUG says more."));
        if (isJson(parsed)) {
            terminal.out().println(Json.text(Json.object().set("problems", Json.list(problems, ProblemJson::write))));
        } else {
            terminal.err().print(ProblemText.write(problems));
        }
        return ExitCodes.of(problems);
    }

    private static boolean isJson(ParseResult parsed) {
        ParseResult last = parsed;
        while (last.hasSubcommand()) {
            last = last.subcommand();
        }
        return last.hasMatchedOption(OutputOptions.JSON);
    }
}
