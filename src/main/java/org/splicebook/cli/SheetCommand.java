package org.splicebook.cli;

import java.util.concurrent.Callable;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "sheet",
        description = {
            "Makes a sheet to print, as PDF:",
            "directory [PANEL], for a panel's door; strips [PANEL], a label for each space; shut-off BOX, with boxes to tick; card [BOX], its drawing and a tag; labels, for"
                    + " receptacles; readings, to write on; emergency, which throws; record [NAME], the whole record and who hands it over."
        })
final class SheetCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "HOUSE", description = "A stored house's id.")
    private String house = "";

    @Parameters(index = "1", paramLabel = "KIND", description = "Which sheet.")
    private String kind = "";

    @Parameters(index = "2", arity = "0..1", paramLabel = "OF", description = "Of what: its name in the record.")
    private String of = "";

    @Option(names = "--paper", paramLabel = "PAPER", description = "a4 or letter; a4 otherwise.")
    private String paper = "a4";

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputFile target = new OutputFile();

    SheetCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        target.needed();
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse stored = houses.findHouse(house).orElseThrow(() -> Houses.notFound(house));
            target.write(terminal, program.sheet(houses, program.files(store.choice()), stored, kind, of, paper));
        }
        return ExitCodes.OK;
    }
}
