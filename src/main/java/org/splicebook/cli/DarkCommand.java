package org.splicebook.cli;

import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "dark",
        description = "Emergency: says which throws make a place, or the whole house, as dark as it can be made.")
final class DarkCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(arity = "0..1", paramLabel = "PLACE", description = "A place; left out, the whole house.")
    private @Nullable String place;

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DarkCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            Map<String, String> asked = place == null ? Map.of() : Map.of("place", place);
            output.print(houses.ask("dark", house.of(houses), asked).get(), terminal);
        }
        return ExitCodes.OK;
    }
}
