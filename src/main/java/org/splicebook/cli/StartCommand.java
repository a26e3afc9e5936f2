package org.splicebook.cli;

import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "start",
        description =
                "Opens the store, loads the sample house if no house is stored, prints three answers, and serves until stopped.")
final class StartCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Option(names = "--once", description = "Quit after printing.")
    private boolean once;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private ListenOptions listen = new ListenOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    StartCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    /** A question of the sample house. */
    private record Asked(String question, Map<String, String> parameters) {}

    private static final List<Asked> ASKED = List.of();

    @Override
    public Integer call() {
        try (Program.Server server = program.serve(store.choice(), listen.listen())) {
            HouseStore houses = server.store();
            House sample = HouseFiles.read(program.sampleHouse()).get();
            if (houses.listHouses().isEmpty()) {
                var unused =
                        new Loader(houses, "start", "the sample house", Progress.NONE).load(List.of(sample), false);
            }
            if (houses.findHouse(sample.id()).isPresent()) {
                ASKED.forEach(a -> show(houses, sample, a));
            }
            terminal.out().println("Serving at " + server.url() + (once ? "" : " until Ctrl-C") + ".");
            terminal.out().flush();
            if (!once) {
                server.await();
            }
        }
        return ExitCodes.OK;
    }

    private void show(HouseStore houses, House sample, Asked asked) {
        output.print(
                houses.ask(asked.question(), sample.id(), asked.parameters()).get(), terminal);
        terminal.out().println();
    }
}
