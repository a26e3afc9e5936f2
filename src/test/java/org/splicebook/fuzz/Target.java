package org.splicebook.fuzz;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import org.splicebook.graph.QuestionFuzz;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.panelplan.IntervalReader;
import org.splicebook.panelplan.upgrade.Prices;
import org.splicebook.rules.LocalPack;
import org.splicebook.spreadsheet.Cells;
import org.splicebook.spreadsheet.Intakes;
import org.splicebook.spreadsheet.ListKind;
import org.splicebook.store.Document;
import org.splicebook.store.Photograph;
import org.splicebook.store.SightingText;
import org.splicebook.web.WebFuzz;

/** What takes bytes of strangers. Each either reads them or says what is wrong with them. */
enum Target {
    /** A house file; a house that is taken reads the same after it was written. */
    HOUSE(in -> Uses.read(Seeds.text(in)), Seeds::houses),
    /** A house file; a house that is taken is derived, checked, solved and drawn too. */
    HOUSE_USED(in -> Uses.of(Seeds.text(in)), Seeds::houses),
    /** A folder of files, each after a line {@code ==> name}. */
    FOLDER(Seeds::folder, Seeds::folders),
    LISTS(
            in -> Intakes.of(Seeds.HOUSE, Cells.read(in), ListKind.PANEL_SCHEDULE, "main", java.util.Map.of()),
            () -> Seeds.lists(false)),
    /** A workbook as the text of its parts, so that it is a workbook still when they are changed. */
    WORKBOOK(
            in -> Intakes.of(
                    Seeds.HOUSE, Cells.read(Seeds.zip(in, false)), ListKind.OUTLETS, "main", java.util.Map.of()),
            () -> Seeds.lists(true)),
    /** An archive as the text of its entries; its digests are put right. */
    ARCHIVE(in -> Seeds.restore(Seeds.zip(in, true)), () -> Seeds.archives(true)),
    ARCHIVE_BYTES(Seeds::restore, () -> Seeds.archives(false)),
    MOVES(in -> Seeds.moves(Seeds.text(in)), Seeds::moveFiles),
    PROPERTY(in -> PropertyFiles.parse("fuzz", Seeds.text(in)), () -> Seeds.resources("property")),
    SIGHTING(
            in -> {
                try {
                    SightingText.read(Seeds.text(in));
                } catch (IllegalStateException e) {
                    // How it says that it is none.
                }
            },
            Seeds::sightings),
    QUESTION_FILE(in -> QuestionFuzz.parse(Seeds.text(in)), () -> Seeds.files(Path.of("queries"), 40)),
    /** The id of a question and then its parameters, line by line. */
    ASKED(in -> Seeds.ask(Seeds.text(in)), Seeds::questions),
    /** The words of diagnose alone. */
    DIAGNOSE(in -> Seeds.ask("diagnose\nsymptoms=" + Seeds.text(in).replace('\n', ' ')), Seeds::symptoms),
    LOCAL_RULES(in -> LocalPack.parse("fuzz", Seeds.text(in)), Seeds::rules),
    INTERVALS(in -> IntervalReader.read("fuzz", Seeds.text(in)), Seeds::intervals),
    PRICES(
            in -> Prices.read("fuzz", Seeds.text(in)),
            () -> List.of(Seeds.bytes("# prices\nbreaker 15 A; 12.50\nwire 12, metre; 1\n"))),
    /** A text that a record holds everywhere, as calendar, table, drawing, sheet. */
    WRITTEN(in -> Uses.written(Seeds.text(in)), Seeds::texts),
    PHOTOGRAPH(Photograph::clean, Seeds::pictures),
    DOCUMENT(Document::clean, Seeds::documents),
    /** Requests as they come over the network; an answer of 500 and more is a finding. */
    WEB(WebFuzz::send, WebFuzz::seeds);

    /** Reads what a stranger sent. */
    interface Reader {
        void read(byte[] input) throws IOException;
    }

    private final Reader reader;
    private final Supplier<List<byte[]>> seeds;

    Target(Reader reader, Supplier<List<byte[]>> seeds) {
        this.reader = reader;
        this.seeds = seeds;
    }

    Reader reader() {
        return reader;
    }

    List<byte[]> seeds() {
        return seeds.get();
    }

    /** {@return the packages whose branches lead the fuzzer: those that read, not all that is made of what they read} */
    String packages() {
        return switch (this) {
            case HOUSE, HOUSE_USED, FOLDER, WRITTEN -> "org.splicebook.housefile.**";
            case WEB -> "org.splicebook.web.**:org.splicebook.housefile.**";
            default -> "org.splicebook.**";
        };
    }

    /** {@return words that its inputs are made of, for the fuzzer} */
    static List<String> words() {
        return org.splicebook.housefile.HouseFiles.schema()
                .lines()
                .flatMap(l -> java.util.regex.Pattern.compile("\"([a-z][a-z-]{1,30})\"")
                        .matcher(l)
                        .results())
                .map(r -> r.group(1))
                .distinct()
                .toList();
    }
}
