package org.splicebook.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.rewire.CarriedOver;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.rewire.Entered;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "draft",
        synopsisSubcommandLabel = "[COMMAND]",
        description = {
            "Tells what a change would do, before anything is touched: for each load point its feed, return, ground and"
                    + " protection, findings cured and new, currents, boxes to open, parts, what must be off, steps, tests.",
            "With --enter it is recorded as done, whole or its first steps.",
            "Drafts are also kept beside a house: save, list, show, enter, carry-over, withdraw."
        })
final class DraftCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "MOVES",
            description = "A file of moves; README.md says how it is written.")
    private Path moves = Path.of("");

    @Option(names = "--enter", description = "Record it as done, as the next revision of the stored house.")
    private boolean enter;

    @Option(
            names = "--steps",
            paramLabel = "NUMBER",
            description = "With --enter: only the first so many steps were done.")
    private @Nullable Integer steps;

    @Option(
            names = "--carry-over",
            description = "With --enter: although what the draft touches was recorded otherwise since it was made.")
    private boolean carryOver;

    @Option(names = "--by", paramLabel = "NAME", description = "With --enter: who did it.")
    private String by = "";

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    DraftCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (house.isEmpty() || moves.toString().isEmpty()) {
            // Not required of the commands below this one, so it is asked for here.
            throw new ParameterException(
                    Objects.requireNonNull(spec).commandLine(),
                    "Missing: FILE|HOUSE and MOVES, or one of the commands.");
        }
        if (Files.exists(Path.of(house))) {
            House record = HouseFiles.read(Path.of(house)).get();
            if (enter) {
                throw wrong(
                        ProblemKind.BAD_VALUE,
                        "--enter",
                        house + " is a file, and nothing is recorded in files.",
                        "Load it, then enter the draft into the stored house.");
            }
            output.print(told(read(record), record, 0, Instant.EPOCH), terminal);
            return ExitCodes.OK;
        }
        try (HouseStore houses = program.open(store.choice())) {
            StoredHouse stored = houses.findHouse(house).orElseThrow(() -> Houses.notFound(house));
            Draft draft = read(stored.house());
            List<String> since = since(houses, draft, stored);
            if (enter) {
                enter(houses, draft, stored, since);
            } else {
                Revision r = stored.revision();
                Answer answer = told(draft, stored.house(), r.number(), r.stored());
                output.print(answer.withNotProven(since), terminal);
            }
        }
        return ExitCodes.OK;
    }

    private Draft read(House record) {
        return DraftFiles.read(moves, record).get().draft();
    }

    private Answer told(Draft draft, House record, long revision, Instant stored) {
        return DraftAnswer.of(draft, record, packs.packs().apply(record), revision, stored)
                .get();
    }

    /** What the draft touches and was recorded otherwise since it was made. */
    private List<String> since(HouseStore houses, Draft draft, StoredHouse stored) {
        Long made = draft.revision();
        if (made == null || made == stored.revision().number()) {
            return List.of();
        }
        House base = houses.findRevision(house, made)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "revision",
                        "The draft was made from revision " + made + ", which is not there.",
                        "The newest is " + stored.revision().number() + "."))
                .house();
        return CarriedOver.conflicts(base, stored.house(), draft.moves()).stream()
                .map(c -> "Recorded otherwise since revision " + made + ": " + c + ".")
                .toList();
    }

    private void enter(HouseStore houses, Draft draft, StoredHouse stored, List<String> since) {
        if (!since.isEmpty() && !carryOver) {
            throw wrong(
                    ProblemKind.CONFLICT,
                    "revision",
                    String.join(" ", since),
                    "Look at the draft again; if it still holds, say --carry-over.");
        }
        int all = draft.moves().size();
        int done = steps == null ? all : steps;
        if (done < 1 || done > all) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    "--steps",
                    "The draft has " + all + " steps.",
                    "Say a number from 1 to " + all + ".");
        }
        String day = LocalDate.now(ZoneId.systemDefault()).toString();
        House after = Entered.of(stored.house(), draft.moves(), done, day).get();
        String part = done == all ? "" : ", steps 1 to " + done + " of " + all;
        Revision made = houses.put(
                        after,
                        stored.revision().number(),
                        by.isBlank() ? System.getProperty("user.name", "") : by,
                        "done: " + draft.name() + part)
                .get();
        terminal.out()
                .println("Recorded as done" + part + " (revision " + made.number() + "). Test before you rely on it.");
        if (done < all) {
            Draft left = new Draft(
                    draft.name(),
                    draft.house(),
                    made.number(),
                    draft.reason(),
                    draft.moves().subList(done, all));
            terminal.out().println("The rest, as a file of moves:");
            terminal.out().print(DraftFiles.write(left));
        }
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
