package org.splicebook.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(name = "serve", description = "Serves the API and the pages on this machine until stopped.")
final class ServeCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private ListenOptions listen = new ListenOptions();

    ServeCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (Program.Server server = program.serve(store.choice(), listen.listen())) {
            terminal.out().println("Serving at " + server.url() + " until Ctrl-C.");
            if (!server.caution().isEmpty()) {
                terminal.out().println(server.caution());
            }
            terminal.out().flush();
            server.await();
        }
        return ExitCodes.OK;
    }
}
