package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.record.Basis;

class TableFileTest {
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
        byte[] bytes = TableFile.of(LISTING, TableFile.Form.XLSX);
        try (ReadableWorkbook book = new ReadableWorkbook(new ByteArrayInputStream(bytes))) {
            List<Row> rows = book.getFirstSheet().read();
            assertThat(rows.get(1).getCellText(0)).isEqualTo("=cmd|' /C calc'!A0");
            assertThat(rows.get(1).getCell(0).getType()).isEqualTo(CellType.STRING);
            assertThat(rows.get(1).getCell(1).asNumber().doubleValue()).isEqualTo(15.5);
            assertThat(rows.get(3).getCellText(0)).isEqualTo("Küche 厨房");
            assertThat(rows)
                    .allSatisfy(r -> r.forEach(c -> assertThat(c.getType()).isNotEqualTo(CellType.FORMULA)));
            assertThat(book.getSheets()
                            .skip(1)
                            .findFirst()
                            .orElseThrow()
                            .read()
                            .get(0)
                            .getCellText(0))
                    .isEqualTo("=Which, of \"all\"?");
        }
    }
}
