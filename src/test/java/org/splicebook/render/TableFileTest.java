package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.record.Basis;

class TableFileTest {
    @TempDir
    Path folder;

    private static final Heading HEADING =
            new Heading("which", "=Which, of \"all\"?", "alder", "Alder", 3, Instant.EPOCH, Map.of(), false);
    private static final Reply LISTING = new Listing(
            HEADING,
            List.of("name", "amperes", "points"),
            List.of(
                    List.of("=cmd|' /C calc'!A0", 15.5, List.of("a", "b")),
                    List.of("two\nlines, and \"quotes\"", -3L, "@SUM(A1)"),
                    List.of("Küche 厨房", 0, "+1")));
    private static final Reply ANSWER = new Answer(
            HEADING,
            List.of(new org.splicebook.answer.Row(
                    "bed-1.top",
                    org.splicebook.answer.Row.Status.POSSIBLE,
                    Basis.TESTED,
                    Map.of("change", "may go off"),
                    List.of("wire K1.black"))),
            List.of("No tap is buried inside a wall."),
            List.of("That it is dead."),
            List.of(),
            List.of("Test every wire yourself."));

    private static List<CSVRecord> csv(Reply reply) throws IOException {
        String text = new String(TableFile.of(reply, TableFile.Form.CSV), StandardCharsets.UTF_8);
        return CSVFormat.RFC4180.parse(new StringReader(text)).getRecords();
    }

    @Test
    void everyCellComesBackAndNoneIsAFormula() throws IOException {
        List<CSVRecord> rows = csv(LISTING);
        assertThat(rows.get(0).toList()).containsExactly("name", "amperes", "points");
        assertThat(rows.get(1).toList()).containsExactly("'=cmd|' /C calc'!A0", "15.5", "a, b");
        assertThat(rows.get(2).toList()).containsExactly("two\nlines, and \"quotes\"", "-3", "'@SUM(A1)");
        assertThat(rows.get(3).toList()).containsExactly("Küche 厨房", "0", "'+1");
        assertThat(rows)
                .allSatisfy(
                        r -> r.forEach(c -> assertThat(c.matches("(?s)[=+@].*")).isFalse()));
    }

    @Test
    void anAnswerKeepsStatusBasisReasonsAndCautions() throws IOException {
        List<CSVRecord> rows = csv(ANSWER);
        assertThat(rows.get(0).toList()).containsExactly("subject", "status", "basis", "change", "why");
        assertThat(rows.get(1).toList())
                .containsExactly("bed-1.top", "possible", "tested", "may go off", "wire K1.black");
        assertThat(rows.stream().flatMap(CSVRecord::stream))
                .contains(
                        "Not proven: That it is dead.",
                        "Assumed: No tap is buried inside a wall.",
                        "Test every wire yourself.");
    }

    @Test
    void aSpreadsheetHoldsTheSameAsTextAndNumbersNeverAsFormulas() throws IOException {
        StringBuilder all = new StringBuilder();
        byte[] bytes = TableFile.of(LISTING, TableFile.Form.XLSX);
        Path book = Files.write(folder.resolve("rows.xlsx"), bytes);
        try (ZipFile zip = new ZipFile(book.toFile())) {
            for (ZipEntry e : Collections.list(zip.entries())) {
                all.append(new String(zip.getInputStream(e).readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        // Letters beyond ASCII stand as numbers in its XML.
        String text = Pattern.compile("&#x(\\p{XDigit}+);")
                .matcher(all)
                .replaceAll(m -> Character.toString(Integer.parseInt(m.group(1), 16)));
        assertThat(text)
                .contains("=cmd|", "<v>15.5</v>", "Küche 厨房", "@SUM(A1)", "=Which, of", "Test every wire yourself")
                .doesNotContain("<f>", "<f ");
    }
}
