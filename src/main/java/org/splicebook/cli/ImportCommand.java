package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.render.ProblemText;
import org.splicebook.spreadsheet.Cells;
import org.splicebook.spreadsheet.Intake;
import org.splicebook.spreadsheet.Intakes;
import org.splicebook.spreadsheet.ListKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Takes a panel schedule or a list of outlets out of a spreadsheet (XLSX or CSV) into a house. It tells first what each row"
                    + " would do and what is wrong, cell by cell; with --store it is done.",
            "What comes from a list is assumed; what the record has already stays as it is."
        })
final class ImportCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(paramLabel = "FILE", description = "The list: the first sheet of a workbook, or CSV.")
    private Path file = Path.of("list.csv");

    @Option(names = "--of", paramLabel = "KIND", description = "panel-schedule (else) or outlets.")
    private String kind = ListKind.PANEL_SCHEDULE.word();

    @Option(names = "--panel", paramLabel = "PANEL", description = "The panel; may be left out where there is one.")
    private String panel = "";

    @Option(
            names = "--column",
            paramLabel = "FIELD=HEADING",
            description = "What a column is headed that is not found: --column label=Serves; - for none.")
    private Map<String, String> columns = new LinkedHashMap<>();

    @Option(names = "--store", description = "Store it, where nothing is wrong.")
    private boolean isToStore;

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    ImportCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        ListKind of = ListKind.of(kind)
                .orElseThrow(() -> wrong("There is no list of " + kind + ".", "There are panel-schedule and outlets."));
        Cells cells = Cells.read(bytes());
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            StoredHouse stored = houses.findHouse(id).orElseThrow(() -> Houses.notFound(id));
            List<String> panels = List.copyOf(stored.house().panels().keySet());
            String in = panel.isEmpty() && panels.size() == 1 ? panels.get(0) : panel;
            Intake intake = Intakes.of(stored.house(), cells, of, in, columns);
            House with = intake.house();
            Revision made = null;
            if (isToStore && with != null && !with.equals(stored.house())) {
                made = houses.put(
                                with,
                                stored.revision().number(),
                                System.getProperty("user.name", "someone"),
                                "From a list: " + of.word())
                        .get();
            }
            print(intake, made);
            return intake.problems().isEmpty() ? ExitCodes.OK : ExitCodes.FOUND;
        }
    }

    private void print(Intake intake, @org.jspecify.annotations.Nullable Revision made) {
        if (output.json()) {
            Map<String, Object> said = new LinkedHashMap<>();
            said.put("columns", intake.columns());
            said.put("unused", intake.unused());
            said.put("lines", intake.lines());
            said.put("problems", Json.list(intake.problems(), ProblemJson::write));
            said.put("revision", made == null ? 0 : made.number());
            terminal.out().println(Json.text(Json.tree(said)));
            return;
        }
        intake.columns().forEach((f, h) -> terminal.out().println("Column " + f + ": " + h));
        if (!intake.unused().isEmpty()) {
            terminal.out().println("Not taken: " + String.join(", ", intake.unused()));
        }
        intake.lines().forEach(l -> terminal.out().println(l));
        terminal.out().flush();
        terminal.err().print(ProblemText.write(intake.problems()));
        if (made != null) {
            terminal.out().println("Stored as revision " + made.number() + " of " + made.house() + ".");
        } else if (intake.problems().isEmpty()) {
            terminal.out().println(isToStore ? "It adds nothing." : "Nothing is stored yet: --store does it.");
        }
    }

    private byte[] bytes() {
        try {
            if (Files.size(file) > Cells.MOST_BYTES) {
                throw wrong("The file is too large for a list.", "Send the list alone, in a file of its own.");
            }
            return Files.readAllBytes(file);
        } catch (java.nio.file.NoSuchFileException e) {
            throw wrong("There is no such file.", "Name the list.");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private ProblemException wrong(String message, String cure) {
        return new ProblemException(
                Problem.error(ProblemKind.BAD_VALUE, new Where(file.toString(), 0, 0, ""), message, cure));
    }
}
