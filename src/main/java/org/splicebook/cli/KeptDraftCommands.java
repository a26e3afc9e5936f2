package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.record.Draft;
import org.splicebook.render.Json;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Drafts that are kept beside their house. */
final class KeptDraftCommands {
    private KeptDraftCommands() {}

    /** {@return all of them, to stand under the command draft} */
    static List<Object> all(Program program, Terminal terminal) {
        return List.of(
                new Save(program, terminal),
                new ListThem(program, terminal),
                new Show(program, terminal),
                new Enter(program, terminal),
                new CarryOver(program, terminal),
                new Withdraw(program, terminal));
    }

    /** What all of them have. */
    abstract static class OfHouse implements Callable<Integer> {
        final Program program;
        final Terminal terminal;

        @Parameters(index = "0", paramLabel = "HOUSE", description = "A stored house's id.")
        String house = "";

        @Mixin
        private StoreOptions store = new StoreOptions();

        OfHouse(Program program, Terminal terminal) {
            this.program = program;
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            try (HouseStore houses = program.open(store.choice())) {
                work(houses, new DraftDesk(houses));
            }
            return ExitCodes.OK;
        }

        abstract void work(HouseStore houses, DraftDesk desk);
    }

    /** What those that change one have. */
    abstract static class OfDraft extends OfHouse {
        @Parameters(index = "1", paramLabel = "DRAFT", description = "The draft's name.")
        String name = "";

        @Option(names = "--by", paramLabel = "NAME", description = "Who says so.")
        private String by = "";

        OfDraft(Program program, Terminal terminal) {
            super(program, terminal);
        }

        String who() {
            return by.isBlank() ? System.getProperty("user.name", "") : by;
        }

        KeptDraft kept(DraftDesk desk) {
            return desk.find(house, name);
        }
    }

    @Command(
            name = "save",
            description = "Keeps a file of moves as a draft of the house, new or changed; it counts nowhere.")
    private static final class Save extends OfHouse {
        @Parameters(index = "1", paramLabel = "MOVES", description = "A file of moves.")
        private Path moves = Path.of("");

        @Option(names = "--by", paramLabel = "NAME", description = "Who says so.")
        private String by = "";

        Save(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            Draft draft =
                    DraftFiles.read(moves, desk.house(house).house()).get().draft();
            long version = houses.findDraft(house, draft.name())
                    .map(KeptDraft::version)
                    .orElse(0L);
            KeptDraft kept = desk.save(draft, version, by.isBlank() ? System.getProperty("user.name", "") : by);
            terminal.out()
                    .println("Kept as the draft " + kept.name() + ", version " + kept.version() + ", on revision "
                            + kept.state().base() + ". Nothing of the house was changed.");
        }
    }

    @Command(name = "list", description = "Lists the drafts of a house and where they stand.")
    private static final class ListThem extends OfHouse {
        @Mixin
        private OutputOptions output = new OutputOptions();

        ListThem(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            List<KeptDraft> all = houses.drafts(desk.house(house).house().id());
            if (output.json()) {
                terminal.out().println(Json.text(Json.list(all, KeptDraftCommands::json)));
                return;
            }
            if (all.isEmpty()) {
                terminal.out().println("No drafts. The command draft save keeps one.");
                return;
            }
            List<List<String>> rows = all.stream()
                    .map(d -> List.of(
                            d.name(),
                            d.state().status().word(),
                            d.state().done() + " of " + d.draft().moves().size(),
                            "revision " + d.state().base(),
                            d.draft().reason() == null ? "" : d.draft().reason()))
                    .toList();
            new Table(List.of("draft", "status", "done", "on", "reason"), rows)
                    .lines(output.width(terminal))
                    .forEach(line -> terminal.out().println(line));
        }
    }

    @Command(
            name = "show",
            description = "Tells what is left of a draft would change, or with --moves prints it as a file of moves.")
    private static final class Show extends OfDraft {
        @Option(names = "--moves", description = "Print the draft as a file of moves.")
        private boolean moves;

        @Mixin
        private PackOptions packs = new PackOptions();

        @Mixin
        private OutputOptions output = new OutputOptions();

        Show(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            KeptDraft kept = kept(desk);
            if (moves) {
                terminal.out().print(DraftFiles.write(kept.draft()));
                return;
            }
            DraftDesk.Comparison c = desk.compared(kept);
            Revision r = c.house().revision();
            if (!output.json()) {
                terminal.out()
                        .println(kept.name() + ": " + kept.state().status().word() + ", "
                                + kept.state().done() + " of "
                                + kept.draft().moves().size()
                                + " moves done, version " + kept.version() + ".");
            }
            output.print(
                    DraftAnswer.of(
                                    c.rest(),
                                    c.house().house(),
                                    packs.packs().apply(c.house().house()),
                                    r.number(),
                                    r.stored())
                            .get()
                            .withNotProven(c.since()),
                    terminal);
        }
    }

    @Command(name = "enter", description = "Records what was done of a draft as the next revision of the house.")
    private static final class Enter extends OfDraft {
        @Option(
                names = "--steps",
                paramLabel = "NUMBER",
                description = "Only the next so many of the moves that are left.")
        private @Nullable Integer steps;

        @Option(
                names = "--carry-over",
                description = "Although what the draft touches was recorded otherwise since it was made.")
        private boolean although;

        Enter(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            KeptDraft kept = kept(desk);
            int left = kept.state().left().size();
            int done = steps == null ? left : steps;
            String day = LocalDate.now(ZoneId.systemDefault()).toString();
            Revision made = desk.enter(kept, kept.version(), done, although, who(), day);
            terminal.out()
                    .println("Recorded as done (revision " + made.number() + "), " + (left - done)
                            + " moves left. Test before you rely on it.");
        }
    }

    @Command(name = "carry-over", description = "Makes what is left of a draft a change of the newest revision.")
    private static final class CarryOver extends OfDraft {
        @Option(names = "--although", description = "Although what it touches was recorded otherwise since.")
        private boolean although;

        CarryOver(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            KeptDraft kept = kept(desk);
            KeptDraft now = desk.carryOver(kept, kept.version(), although, who());
            terminal.out()
                    .println("Now a change of revision " + now.state().base() + ". Look at it again: draft show.");
        }
    }

    @Command(name = "withdraw", description = "Gives a draft up. What was entered of it stays as it is recorded.")
    private static final class Withdraw extends OfDraft {
        Withdraw(Program program, Terminal terminal) {
            super(program, terminal);
        }

        @Override
        void work(HouseStore houses, DraftDesk desk) {
            KeptDraft kept = kept(desk);
            KeptDraft now = desk.withdraw(kept, kept.version(), who());
            terminal.out().println("Withdrawn: " + now.name() + ". Saving it again takes it up.");
        }
    }

    private static ObjectNode json(KeptDraft d) {
        ObjectNode o = Json.object();
        o.put("draft", d.name());
        o.put("mark", ReplyText.DRAFT);
        o.put("status", d.state().status().word());
        o.put("revision", d.state().base());
        o.put("moves", d.draft().moves().size());
        o.put("done", d.state().done());
        o.put("version", d.version());
        o.put("stored", d.stored().toString());
        o.put("who", d.who());
        o.put("reason", d.draft().reason());
        return o;
    }
}
