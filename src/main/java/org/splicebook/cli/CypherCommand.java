package org.splicebook.cli;

import java.util.concurrent.Callable;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "cypher",
        description = {
            "Runs a query of your own on the graph: for the owner of the store, who has its data folder.",
            "It may only look: what writes, calls procedures or reads files is refused, and it is stopped after 10 seconds. The graph is"
                    + " described in DEVELOPERS.md; what it says proves no wire dead."
        })
final class CypherCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "QUERY", description = "The query: \"MATCH (b:Breaker) RETURN b.name\".")
    private String query = "";

    @Option(names = "--most", paramLabel = "N", description = "So many rows at most, up to 10000; else 1000.")
    private int most = 1000;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    CypherCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            output.print(houses.look(query, most).get(), terminal);
        }
        return ExitCodes.OK;
    }
}
