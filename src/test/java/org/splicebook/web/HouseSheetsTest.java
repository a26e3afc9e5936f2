package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.render.PanelDirectory;
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

class HouseSheetsTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    /** No more than the margins of a sheet, in points. */
    private static final float MARGIN = 30;

    private static final Wiring WIRING = Derivation.derive(HOUSE);
    private static final String BOX = HOUSE.boxes().values().stream()
            .filter(b -> b.joints().size() > 3)
            .findFirst()
            .orElseThrow()
            .name();
    private static final HouseStore STORE = new AnsweringStore(new MemoryStore(), Derivation::derive);
    private static final MemoryFiles FILES = new MemoryFiles();
    private static final StoredHouse STORED;

    static {
        STORE.put(HOUSE, 0, "Rowan", "new").get();
        STORED = STORE.findHouse(HOUSE.id()).orElseThrow();
    }

    private static PDDocument sheet(String kind, String of, String paper) throws IOException {
        byte[] pdf = HouseSheets.pdf(STORE, FILES, STORED, kind, of, paper);
        Files.createDirectories(Path.of("target/sheets"));
        Files.write(Path.of("target/sheets", kind + "-" + paper + ".pdf"), pdf);
        return Loader.loadPDF(pdf);
    }

    @Test
    void everyPageOfASheetOfADraftIsMarked() throws IOException {
        Draft draft = new Draft("off", HOUSE.id(), 1L, null, List.of(new Move.RetireCable("C18c")));
        byte[] pdf = HouseSheets.pdf(STORE, FILES, DraftDesk.drafted(draft, STORED), "record", "", "a4");
        try (PDDocument d = Loader.loadPDF(pdf)) {
            assertThat(d.getNumberOfPages()).isGreaterThan(1);
            for (int i = 1; i <= d.getNumberOfPages(); i++) {
                assertThat(text(d, i, i)).as("page %d", i).contains("DRAFT: a proposed change", "Draft off of");
            }
        }
    }

    /** The text of some pages, without the breaks of lines. */
    private static String text(PDDocument d, int from, int to) throws IOException {
        PDFTextStripper s = new PDFTextStripper();
        s.setSortByPosition(false);
        s.setStartPage(from);
        s.setEndPage(to);
        return s.getText(d).replaceAll("\\s+", " ");
    }

    private static String dense(String s) {
        return s.replaceAll("\\s+", "");
    }

    @ParameterizedTest
    @CsvSource({
        "directory,",
        "strips,",
        "shut-off,box",
        "card,box",
        "labels,",
        "readings,",
        "emergency,",
        "record,Rowan",
    })
    void everyPageOfEverySheetBearsTheHouseTheRevisionTheSurenessAndItsNumberInAFaceThatIsEmbedded(
            String kind, String of) throws IOException {
        for (String paper : List.of("a4", "letter")) {
            try (PDDocument d = sheet(kind, of == null ? "" : of.equals("box") ? BOX : of, paper)) {
                PDRectangle size = paper.equals("a4") ? PDRectangle.A4 : PDRectangle.LETTER;
                for (int n = 1; n <= d.getNumberOfPages(); n++) {
                    PDPage page = d.getPage(n - 1);
                    assertThat(page.getMediaBox().getWidth())
                            .isCloseTo(size.getWidth(), org.assertj.core.data.Offset.offset(1f));
                    assertThat(text(d, n, n))
                            .as(kind + " page " + n)
                            .contains(HOUSE.said(), "Revision 1 of ", "asis of what is shown: ", "test every wire")
                            .contains("page " + n + " of " + d.getNumberOfPages());
                    for (var name : page.getResources().getFontNames()) {
                        PDFont font = page.getResources().getFont(name);
                        assertThat(font.isEmbedded()).as(font.getName()).isTrue();
                        assertThat(font.getName()).contains("LiberationSans");
                    }
                }
                assertThat(text(d, 1, d.getNumberOfPages())).contains("Test every wire yourself before you touch it");
            }
        }
    }

    @Test
    void theDirectoryHasEveryLineWholeOnOnePage() throws IOException {
        String panel = HOUSE.panels().keySet().iterator().next();
        PanelDirectory directory = PanelDirectory.of(WIRING, panel);
        try (PDDocument d = sheet("directory", panel, "letter")) {
            List<String> pages = new java.util.ArrayList<>();
            for (int n = 1; n <= d.getNumberOfPages(); n++) {
                pages.add(dense(text(d, n, n)));
            }
            directory.lines().forEach(l -> assertThat(pages).as(l.spaces()).anyMatch(p -> p.contains(dense(l.said()))));
        }
    }

    @Test
    void everySpaceHasALabelOfItsOwnAndItsNumberIsBold() throws IOException {
        String panel = HOUSE.panels().keySet().iterator().next();
        try (PDDocument d = sheet("strips", panel, "a4")) {
            String text = dense(text(d, 1, d.getNumberOfPages()));
            PanelDirectory.of(WIRING, panel)
                    .lines()
                    .forEach(l -> assertThat(text)
                            .contains(dense(l.rating().isEmpty() ? l.spaces() : l.spaces() + ", " + l.rating())
                                    + dense(l.said())));
            List<String> faces = new java.util.ArrayList<>();
            PDFTextStripper s = new PDFTextStripper() {
                @Override
                protected void processTextPosition(org.apache.pdfbox.text.TextPosition t) {
                    if (t.getFontSizeInPt() > 12.5) {
                        faces.add(t.getFont().getName());
                    }
                }
            };
            s.getText(d);
            assertThat(faces).isNotEmpty().allMatch(f -> f.contains("Bold"));
        }
    }

    @Test
    void theShutOffSheetLeavesOutNothingOfTheAnswer() throws IOException {
        for (String box : HOUSE.boxes().keySet().stream().limit(6).toList()) {
            Answer a = (Answer) STORE.ask("shut-off", HOUSE.id(), java.util.Map.of("box", box))
                    .get();
            try (PDDocument d = sheet("shut-off", box, "a4")) {
                String text = dense(text(d, 1, d.getNumberOfPages()));
                assertThat(text).contains(dense(a.outcome()));
                assertThat(a.rows())
                        .extracting(Row::subject)
                        .allSatisfy(s -> assertThat(text).contains(dense(s)));
                a.sections().stream()
                        .flatMap(s -> s.lines().stream())
                        .forEach(l -> assertThat(whole(d, l)).as(box + ": " + l).isTrue());
                a.notProven()
                        .forEach(l -> assertThat(whole(d, l)).as(box + ": " + l).isTrue());
                a.cautions()
                        .forEach(l -> assertThat(whole(d, l)).as(box + ": " + l).isTrue());
            }
        }
    }

    /** Whether a line stands somewhere, on one page or over a break, whatever footer stands between. */
    private static boolean whole(PDDocument d, String line) {
        try {
            String all = dense(text(d, 1, d.getNumberOfPages()));
            String[] words = line.split(" ");
            return all.contains(dense(line)) || java.util.Arrays.stream(words).allMatch(w -> all.contains(w));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void aCardBearsEveryWordOfItsDrawingAndItsTag() throws IOException {
        Drawing drawing = Drawings.of(DrawingKind.BOX, WIRING, BOX);
        try (PDDocument d = sheet("card", BOX, "a4")) {
            String text = dense(text(d, 1, d.getNumberOfPages()));
            drawing.labels().forEach(l -> assertThat(text).contains(dense(l.text())));
            assertThat(text).contains("Findtheboxbythiscode");
            assertThat(dense(text(d, 1, 1)))
                    .as("the drawing stands under its title, not on a page behind an empty one")
                    .contains(
                            dense("Box " + BOX),
                            dense(drawing.labels()
                                    .get(drawing.labels().size() - 1)
                                    .text()));
        }
    }

    /** Letters beyond the edge of the paper are read back as if they were there, so where they stand is asked. */
    @ParameterizedTest
    @CsvSource({"directory,", "strips,", "shut-off,box", "card,", "labels,", "readings,", "emergency,", "record,"})
    void noWordRunsOffThePaperOrIntoItsMargins(String kind, String of) throws IOException {
        try (PDDocument d = sheet(kind, of == null ? "" : BOX, "a4")) {
            List<String> cut = new java.util.ArrayList<>();
            PDFTextStripper s = new PDFTextStripper() {
                @Override
                protected void processTextPosition(org.apache.pdfbox.text.TextPosition t) {
                    float right = t.getXDirAdj() + t.getWidthDirAdj();
                    if (t.getXDirAdj() < MARGIN
                            || right > t.getPageWidth() - MARGIN
                            || t.getYDirAdj() > t.getPageHeight() - MARGIN) {
                        cut.add(getCurrentPageNo() + ": " + t.getUnicode() + " at " + right + ", " + t.getYDirAdj());
                    }
                }
            };
            s.getText(d);
            assertThat(cut).isEmpty();
        }
    }

    @Test
    void everyLoadPointHasALineForReadings() throws IOException {
        try (PDDocument d = sheet("readings", "", "letter")) {
            String text = dense(text(d, 1, d.getNumberOfPages()));
            WIRING.loadPoints().forEach(l -> assertThat(text).contains(dense(l.id())));
        }
    }

    @Test
    void whatIsNotThereIsSaidWithWhatIs() {
        assertThatThrownBy(() -> HouseSheets.pdf(STORE, FILES, STORED, "poster", "", "a4"))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("poster");
        assertThatThrownBy(() -> HouseSheets.pdf(STORE, FILES, STORED, "shut-off", "nowhere", "a4"))
                .hasMessageContaining("nowhere");
        assertThatThrownBy(() -> HouseSheets.pdf(STORE, FILES, STORED, "shut-off", "", "a4"))
                .hasMessageContaining("of which");
        assertThatThrownBy(() -> HouseSheets.pdf(STORE, FILES, STORED, "labels", "", "b5"))
                .hasMessageContaining("b5");
    }
}
