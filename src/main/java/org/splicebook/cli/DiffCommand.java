package org.splicebook.cli;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.Difference;
import org.splicebook.housefile.HouseDifferences;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "diff",
        description = {
            "Tells in what two revisions of a house differ, box by box. What follows for feeds, protection and tests:",
            "ask differences --house HOUSE from=N to=M"
        })
final class DiffCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "HOUSE", description = "The house's id.")
    private String house = "";

    @Option(names = "--from", paramLabel = "NUMBER", description = "The earlier revision; else the one before.")
    private @Nullable Long from;

    @Option(names = "--to", paramLabel = "NUMBER", description = "The later revision; else the newest.")
    private @Nullable Long to;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DiffCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        StoredHouse was;
        StoredHouse is;
        try (HouseStore houses = program.open(store.choice())) {
            is = (to == null ? houses.findHouse(house) : houses.findRevision(house, to))
                    .orElseThrow(() -> Houses.notFound(house));
            long before = from == null ? Math.max(1, is.revision().number() - 1) : from;
            was = houses.findRevision(house, before).orElseThrow(() -> Houses.notFound(house + "@" + before));
        }
        List<Difference> differences = HouseDifferences.between(was.house(), is.house(), Set.of());
        if (output.json()) {
            terminal.out()
                    .println(Json.text(Json.list(
                            differences,
                            d -> Json.tree(Map.of("part", d.part(), "what", d.what(), "was", d.was(), "is", d.is())))));
            return ExitCodes.OK;
        }
        terminal.out()
                .println("Revision " + was.revision().number() + " to "
                        + is.revision().number() + " of " + is.house().said()
                        + (differences.isEmpty() ? ": nothing differs." : ":"));
        String part = "";
        for (Difference d : differences) {
            if (!d.part().equals(part)) {
                part = d.part();
                terminal.out().println(part);
            }
            terminal.out().println("  " + said(d));
        }
        return ExitCodes.OK;
    }

    private static String said(Difference d) {
        String what = d.what().isEmpty() ? "" : d.what() + ": ";
        if (d.was().isEmpty()) {
            return what + "new" + (d.is().isBlank() ? "" : ": " + d.is());
        }
        return d.is().isEmpty() ? what + "no longer there: " + d.was() : what + "was " + d.was() + ", is " + d.is();
    }
}
