package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.ZipFile;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Sheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.render.Json;
import org.splicebook.render.PlanText;
import org.splicebook.render.ReplyText;

/** The command that plans a new panel. */
class PlanCommandTest {
    @TempDir
    private Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... args) {
        return Commands.run(
                new FakeProgram(), new Terminal(new PrintWriter(out), new PrintWriter(err), 120, false), args);
    }

    private Path house() throws IOException {
        Path file = folder.resolve("house.yaml");
        Files.writeString(file, """
                splicebook: 1
                house: small
                basis: seen
                area: 1400 ft2
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, rating: 60 A, bond: main}}
                places: {kitchen: {kind: kitchen}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: service
                    spaces: 8
                    rating: 60 A
                    main: {poles: 2, rating: 60 A}
                    breakers: {1: {rating: 15 A}, 5: {rating: 15 A}}
                    joints: [[1, A.black], [5, A.red], [n, A.white]]
                cables: {A: {kind: NM, wires: 14/3, ends: [main, room]}}
                boxes:
                  room:
                    place: kitchen
                    devices: {a: {kind: single-receptacle}, b: {kind: single-receptacle}}
                    joints: [[A.black, a.hot], [A.red, b.hot], [A.white, a.neutral, b.neutral]]
                """);
        return file;
    }

    @Test
    void writesThePaperAndADraftThatTheDraftCommandReads() throws IOException {
        Path house = house();
        Path to = folder.resolve("paper");
        assertThat(run("plan", house.toString(), "--panel", "100-20", "--add", "ev 24 A", "--write", to.toString()))
                .as(err.toString())
                .isZero();
        assertThat(out.toString())
                .contains("DRAFT")
                .contains("Landing list")
                .contains("proved: none is better")
                .contains("Where does ev go?");
        assertThat(Files.readAllBytes(to.resolve("panel-main.pdf")))
                .startsWith("%PDF".getBytes(StandardCharsets.US_ASCII));
        try (PDDocument pdf = Loader.loadPDF(to.resolve("panel-main.pdf").toFile())) {
            String text = new PDFTextStripper().getText(pdf);
            assertThat(text.indexOf(ReplyText.CAUTIONS))
                    .as("who works by the paper has read the cautions before the first wire is landed")
                    .isPositive()
                    .isLessThan(text.indexOf("Landing list"))
                    .isEqualTo(text.lastIndexOf(ReplyText.CAUTIONS));
        }
        try (ReadableWorkbook book =
                        new ReadableWorkbook(to.resolve("panel-main.xlsx").toFile());
                Stream<Sheet> sheets = book.getSheets()) {
            for (Sheet s : sheets.toList()) {
                List<String> first = s.read().stream()
                        .filter(r -> IntStream.range(1, r.getCellCount())
                                .allMatch(i -> r.getCellText(i).isBlank()))
                        .map(r -> r.getCellText(0))
                        .filter(t -> !t.isBlank())
                        .toList();
                assertThat(first)
                        .as(s.getName())
                        .allSatisfy(t -> assertThat(t.length())
                                .as("nothing runs out of sight: " + t)
                                .isLessThan(140));
                assertThat(String.join(" ", first).replaceAll(" +", " ")).contains(PlanText.ADVICE);
            }
        }
        try (ZipFile book = new ZipFile(to.resolve("panel-main.xlsx").toFile())) {
            String text = new String(
                    book.getInputStream(book.getEntry("xl/workbook.xml")).readAllBytes(), StandardCharsets.UTF_8);
            assertThat(text).contains("landings").contains("directory");
        }
        JsonNode json = Json.read(Files.readString(to.resolve("panel-main.json")));
        assertThat(json.get("draft").asBoolean()).isTrue();
        assertThat(json.get("circuits").size()).isEqualTo(2);
        out.getBuffer().setLength(0);
        assertThat(run("draft", house.toString(), to.resolve("panel-main.yaml").toString()))
                .as(err.toString())
                .isZero();
        assertThat(out.toString()).contains("hang a panel of 20 spaces");
    }

    @Test
    void tellsWhatIsWrongAtOnce() throws IOException {
        assertThat(run("plan", house().toString(), "--panel", "12", "--protect", "some", "--lock", "1=x"))
                .isNotZero();
        assertThat(err.toString())
                .contains("There is no panel '12'")
                .contains("'some'")
                .contains("'x' is no space");
    }

    @Test
    void saysWhenThereIsNoRoom() throws IOException {
        assertThat(run("plan", house().toString(), "--panel", "100-20", "--lock", "1=1+2"))
                .isNotZero();
        assertThat(err.toString()).contains("cannot be locked in 1+2");
    }
}
