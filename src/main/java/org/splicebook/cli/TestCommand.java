package org.splicebook.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.upkeep.TestLog;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "test",
        description = {
            "Records the outcome of a test, in the words of a house file:",
            "",
            "what=trip-button device=bath-gf result=passed",
            "what=after-change device=bed-1.top result=passed",
            "what=panel-torque device=main result=\"28 in-lb\" note=\"breaker 6, tool 4\"",
            "",
            "Beside these: date (else today), id (else the next), by. The command due tells what is due."
        })
final class TestCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "NAME=VALUE", description = "What was tested, and how it ended.")
    private Map<String, String> said = new LinkedHashMap<>();

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    TestCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Revision made;
        try (HouseStore houses = program.open(store.choice())) {
            made = TestLog.append(
                    houses,
                    house.of(houses),
                    List.of(said),
                    LocalDate.now(ZoneId.systemDefault()).toString(),
                    System.getProperty("user.name", "someone"));
        }
        if (output.json()) {
            terminal.out().println(Json.text(Json.tree(Map.of("house", made.house(), "revision", made.number()))));
        } else {
            terminal.out().println("Recorded in revision " + made.number() + " of " + made.house() + ".");
        }
        return ExitCodes.OK;
    }
}
