package org.splicebook.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "shut-off",
        description = "Says what must be off, locked and tested before something is opened, cut or drilled into.")
final class ShutOffCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "BOX", description = "One or several boxes or panels.")
    private List<String> boxes = new ArrayList<>();

    @Option(names = "--place", paramLabel = "PLACE", description = "Every box of a place.")
    private @Nullable String place;

    @Option(names = "--cable", paramLabel = "CABLE", description = "A cable, somewhere along its way.")
    private @Nullable String cable;

    @Option(names = "--spot", paramLabel = "PLACE", description = "Someone drills into a wall of that place.")
    private @Nullable String spot;

    @Option(
            names = "--between",
            paramLabel = "BOX",
            arity = "2",
            description = "Someone drills between these two boxes.")
    private List<String> between = new ArrayList<>();

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    ShutOffCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            output.print(draft.ask(houses, house.of(houses), "shut-off", target()), terminal);
        }
        return ExitCodes.OK;
    }

    private Map<String, String> target() {
        Map<String, String> target = new LinkedHashMap<>();
        put(target, "box", boxes.isEmpty() ? null : String.join(",", boxes));
        put(target, "place", place);
        put(target, "cable", cable);
        put(target, "spot", spot);
        put(target, "between", between.isEmpty() ? null : String.join(",", between));
        return target;
    }

    private static void put(Map<String, String> target, String name, @Nullable String value) {
        if (value != null) {
            target.put(name, value);
        }
    }
}
