package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.concurrent.Callable;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.VerifyReport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "verify-store", description = "Compares every house's graph with its record.")
final class VerifyStoreCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Option(names = "--rebuild", description = "Rebuild the graphs that differ.")
    private boolean rebuild;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    VerifyStoreCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        VerifyReport report;
        try (HouseStore houses = program.open(store.choice());
                Bar bar = new Bar("Verifying", terminal)) {
            report = houses.verify(rebuild, bar);
        }
        if (output.json()) {
            terminal.out().println(Json.text(tree(report)));
        } else {
            print(report);
        }
        return report.clean() || rebuild ? ExitCodes.OK : ExitCodes.FOUND;
    }

    private static ObjectNode tree(VerifyReport report) {
        ObjectNode o = Json.object();
        o.put("houses", report.houses());
        o.put("clean", report.clean());
        o.set("differences", Json.tree(report.differences()));
        o.set("rebuilt", Json.tree(report.rebuilt()));
        return o;
    }

    private void print(VerifyReport report) {
        String count = report.houses() == 1 ? "1 house" : report.houses() + " houses";
        terminal.out()
                .println(
                        report.differences().isEmpty()
                                ? count + " verified: every graph agrees with its record."
                                : count + " verified, " + report.differences().size() + " differing:");
        report.differences().forEach(d -> terminal.out().println("- " + d));
        if (!report.rebuilt().isEmpty()) {
            terminal.out().println("Rebuilt: " + String.join(", ", report.rebuilt()) + ".");
        }
    }
}
