package org.splicebook.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.render.FindingsJson;
import org.splicebook.render.FindingsText;
import org.splicebook.render.Json;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "check",
        description =
                "Checks a house by an edition of the code, or by hazards alone: what is found, what is possible, what has to be known.")
final class CheckCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Option(
            names = "--edition",
            paramLabel = "EDITION",
            description =
                    "2014, 2017, 2020, 2023, 2026 or physics (hazards whatever the code); left out, what the record names.")
    private @Nullable String edition;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    CheckCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        House record = Houses.record(house, program, store);
        Pack pack = edition == null ? Packs.of(record) : Packs.find(edition).get();
        List<Finding> found = Checks.of(record, pack);
        terminal.out()
                .print(
                        output.json()
                                ? Json.text(FindingsJson.write(record, pack, found)) + "\n"
                                : FindingsText.write(record, pack, found, output.width(terminal)));
        return ExitCodes.OK;
    }
}
