package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.FindingsJson;
import org.splicebook.render.FindingsText;
import org.splicebook.render.InspectionText;
import org.splicebook.render.Json;
import org.splicebook.render.Sarif;
import org.splicebook.rules.Acceptances;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Grouping;
import org.splicebook.rules.InspectionList;
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
            description = "A house file, a folder of them, or a stored house's id; HOUSE@7 is its revision 7.")
    private String house = "";

    @Mixin
    private PackOptions packs = new PackOptions();

    @Option(
            names = "--by",
            paramLabel = "severity|place|circuit",
            description = "How to put findings together; left out, by severity.")
    private Grouping by = Grouping.SEVERITY;

    @Option(
            names = "--explain",
            paramLabel = "FINDING",
            description =
                    "Tells one finding at length, named by rule, slash, what it is about: open-wire-end/K9.red@2.")
    private @Nullable String explain;

    @Option(
            names = "--against",
            paramLabel = "FILE|HOUSE",
            description = "Compares with a check of that one, as the house was before: cured, new, changed.")
    private @Nullable String against;

    @Option(names = "--sarif", description = "Print a SARIF 2.1.0 log, for tools that read the results of checks.")
    private boolean sarif;

    @Option(
            names = "--for",
            paramLabel = "rental",
            description = "Prints a list of inspection items instead, for rented homes, each answered from the check.")
    private @Nullable Inspected inspected;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputOptions output = new OutputOptions();

    /** Who the list of items is for. */
    enum Inspected {
        rental
    }

    CheckCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        House record = draft.over(Houses.record(house, program, store));
        Pack pack = packs.packs().apply(record);
        Checked checked = Checked.of(record, pack);
        if (against != null) {
            Checked before = Checked.of(Houses.record(against, program, store), pack);
            print(FindingsJson.compare(before, checked), FindingsText.compare(before, checked, width()));
        } else if (explain != null) {
            Finding finding = Acceptances.find(checked, explain).get();
            List<Pack> editions = pack.edition() == null
                    ? List.of()
                    : Packs.editions().stream().map(Packs::us).toList();
            List<String> said = FindingsText.editions(finding.rule(), editions);
            print(FindingsJson.explain(checked, finding), FindingsText.explain(checked, finding, said, width()));
        } else if (inspected != null) {
            InspectionList list = InspectionList.forRental(checked);
            print(InspectionText.json(checked, list), InspectionText.write(checked, list, width()));
        } else if (sarif) {
            Path file = Path.of(house);
            Map<String, Where> positions = Files.exists(file) ? HouseFiles.positions(file) : Map.of();
            terminal.out().println(Json.text(Sarif.write(checked, program.version(), positions)));
        } else {
            print(FindingsJson.write(checked, by), FindingsText.write(checked, by, width()));
        }
        return ExitCodes.OK;
    }

    private int width() {
        return output.width(terminal);
    }

    private void print(ObjectNode json, String text) {
        terminal.out().print(output.json() ? Json.text(draft.mark(json)) + "\n" : draft.mark(text));
    }
}
