package org.splicebook.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.rules.Acceptances;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "accept",
        description =
                "Lets a finding stand, with a reason, so that checks keep it apart; it comes back when the check says something else.")
final class AcceptCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "HOUSE", description = "A stored house's id.")
    private String house = "";

    @Parameters(
            index = "1",
            paramLabel = "FINDING",
            description = "The finding, named by rule, slash, what it is about: open-wire-end/K9.red@2.")
    private String finding = "";

    @Option(names = "--reason", paramLabel = "WORDS", description = "Why it may stand. Needed unless --withdraw.")
    private @Nullable String reason;

    @Option(names = "--by", paramLabel = "NAME", description = "Who decides.")
    private @Nullable String by;

    @Option(names = "--withdraw", description = "Takes an acceptance back: the finding is open again.")
    private boolean withdraw;

    @Option(names = "--edition", paramLabel = "EDITION", description = "As for check.")
    private @Nullable String edition;

    @Mixin
    private StoreOptions store = new StoreOptions();

    AcceptCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse stored = houses.findHouse(house).orElseThrow(() -> Houses.notFound(house));
            House changed = withdraw
                    ? Acceptances.withdraw(stored.house(), finding).get()
                    : Acceptances.accept(
                                    checked(stored.house()), finding, reason, by, LocalDate.now(ZoneId.systemDefault()))
                            .get();
            Revision made = houses.put(
                            changed,
                            stored.revision().number(),
                            by == null ? System.getProperty("user.name", "") : by,
                            (withdraw ? "takes back: " : "lets stand: ") + finding)
                    .get();
            terminal.out()
                    .println((withdraw ? "Open again: " : "Accepted, which puts nothing right: ") + finding
                            + " (revision " + made.number() + ").");
        }
        return ExitCodes.OK;
    }

    private Checked checked(House record) {
        return Checked.of(
                record, edition == null ? Packs.of(record) : Packs.find(edition).get());
    }
}
