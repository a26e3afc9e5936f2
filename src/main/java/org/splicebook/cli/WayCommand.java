package org.splicebook.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.concurrent.Callable;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
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

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Parameters(
            index = "1",
            paramLabel = "LOADPOINT",
            description = "A load point, or a device for all of its load points.")
    private String loadPoint = "";

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    WayCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        output.print(Files.exists(Path.of(house)) ? fromFile() : fromStore(), terminal);
        return ExitCodes.OK;
    }

    private Answer fromFile() {
        return WayAnswer.of(Derivation.derive(HouseFiles.read(Path.of(house)).get()), loadPoint, 0, Instant.EPOCH);
    }

    private Answer fromStore() {
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse stored = houses.findHouse(house).orElseThrow(() -> Houses.notFound(house));
            return WayAnswer.of(
                    Derivation.derive(stored.house()),
                    loadPoint,
                    stored.revision().number(),
                    stored.revision().stored());
        }
    }
}
