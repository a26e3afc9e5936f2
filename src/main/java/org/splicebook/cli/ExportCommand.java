package org.splicebook.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.render.GraphMl;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "export", description = "Writes a stored house as a house file, or as GraphML.")
final class ExportCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "HOUSE", description = "The house's id.")
    private String house = "";

    @Option(names = "--revision", paramLabel = "NUMBER", description = "An earlier revision instead of the newest.")
    private @Nullable Long revision;

    @Option(
            names = "--graphml",
            description =
                    "Write GraphML for programs that draw and compute graphs, with what may feed each load point.")
    private boolean graphml;

    @Mixin
    private OutputFile target = new OutputFile();

    @Mixin
    private StoreOptions store = new StoreOptions();

    ExportCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        String text;
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse stored = (revision == null ? houses.findHouse(house) : houses.findRevision(house, revision))
                    .orElseThrow(() -> Houses.notFound(house));
            text = graphml
                    ? GraphMl.of(
                            Derivation.derive(stored.house()), stored.revision().number())
                    : HouseWriter.write(stored.house());
        }
        target.write(terminal, text);
        return ExitCodes.OK;
    }
}
