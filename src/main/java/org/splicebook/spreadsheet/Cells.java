package org.splicebook.spreadsheet;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.commons.compress.utils.SeekableInMemoryByteChannel;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * The cells of a list as text: the first sheet of a workbook, or a CSV file with commas, semicolons or tabs. No formula is computed: of one
 * the text that was last shown is taken.
 *
 * @param rows row by row, all of one length; blank rows too, so that a row keeps its number
 * @param formulas the cells that hold formulas, as {@code B7: =A1+1}
 */
public record Cells(List<List<String>> rows, List<String> formulas) {
    /** Most bytes that a file may have. */
    public static final int MOST_BYTES = 5_000_000;

    private static final long MOST_INFLATED = 50_000_000L;
    private static final int MOST_ENTRIES = 1_000;
    private static final int MOST_ROWS = 5_000;
    private static final int MOST_COLUMNS = 60;
    private static final int MOST_TEXT = 500;
    private static final int MOST_DIGITS = 100;

    /** What a workbook's parts never hold, and what the library that reads them should not be shown. */
    private static final Pattern HOSTILE =
            Pattern.compile("<!(?:DOCTYPE|ENTITY)|encoding\\s*=\\s*[\"'](?!(?i:utf-8)[\"'])"
                    // A place far out would make the library keep as many empty cells.
                    + "|\\sr\\s*=\\s*[\"'](?![A-Z]{0,3}[0-9]{1,7}[\"'])|\\u0000");

    public Cells {
        rows = rows.stream().map(List::copyOf).toList();
        formulas = List.copyOf(formulas);
    }

    /**
     * {@return the cells of a file}
     *
     * @throws ProblemException when it is none of these, or too large
     */
    public static Cells read(byte[] file) {
        if (file.length > MOST_BYTES) {
            throw wrong(
                    ProblemKind.TOO_LARGE, 0, 0, "The file has more than " + MOST_BYTES / 1_000_000 + " MB.", SMALLER);
        }
        boolean isZip = file.length > 3 && file[0] == 'P' && file[1] == 'K';
        List<String> formulas = new ArrayList<>();
        List<List<String>> rows = isZip ? xlsx(file, formulas) : csv(file);
        int width = rows.stream().mapToInt(List::size).max().orElse(0);
        List<List<String>> even = new ArrayList<>();
        for (List<String> row : rows) {
            List<String> cells = new ArrayList<>(row);
            while (cells.size() < width) {
                cells.add("");
            }
            even.add(cells);
        }
        return new Cells(even, formulas);
    }

    private static final String SMALLER = "Send the list alone, in a file of its own.";

    private static List<List<String>> csv(byte[] file) {
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(file))
                    .toString();
        } catch (CharacterCodingException e) {
            throw wrong(
                    ProblemKind.SYNTAX,
                    0,
                    0,
                    "The file is neither a workbook nor text in UTF-8.",
                    "Save it as CSV in UTF-8.");
        }
        String whole = text.startsWith("\uFEFF") ? text.substring(1) : text;
        String first = whole.lines().findFirst().orElse("");
        char separator = Stream.of(',', ';', '\t')
                .max(Comparator.comparingLong(
                        c -> first.chars().filter(x -> x == c).count()))
                .orElse(',');
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setDelimiter(separator)
                .setIgnoreEmptyLines(false)
                .get();
        List<List<String>> rows = new ArrayList<>();
        try (CSVParser parser = format.parse(new StringReader(whole))) {
            for (CSVRecord r : parser) {
                List<String> cells = new ArrayList<>();
                for (String c : r) {
                    cells.add(cell(c, rows.size(), cells.size()));
                }
                add(rows, cells);
            }
        } catch (IOException | UncheckedIOException e) {
            throw wrong(
                    ProblemKind.SYNTAX,
                    rows.size(),
                    0,
                    "From here the file is no CSV.",
                    "A quote is open, most likely.");
        }
        return rows;
    }

    private static List<List<String>> xlsx(byte[] file, List<String> formulas) {
        inflate(file);
        List<List<String>> rows = new ArrayList<>();
        try (ReadableWorkbook book = new ReadableWorkbook(new ByteArrayInputStream(file))) {
            Sheet sheet = book.getFirstSheet();
            try (Stream<Row> all = sheet.openStream()) {
                all.forEach(r -> {
                    while (rows.size() < r.getRowNum() - 1) {
                        add(rows, List.of());
                    }
                    List<String> cells = new ArrayList<>();
                    for (Cell c : r) {
                        if (c != null && c.getType() == CellType.FORMULA) {
                            formulas.add(name(rows.size(), cells.size()) + ": ="
                                    + cell(Objects.requireNonNullElse(c.getFormula(), ""), rows.size(), cells.size()));
                        }
                        cells.add(c == null ? "" : cell(text(c), rows.size(), cells.size()));
                    }
                    add(rows, cells);
                });
            }
        } catch (ProblemException e) {
            throw e;
        } catch (IOException | RuntimeException e) {
            throw wrong(
                    ProblemKind.SYNTAX,
                    0,
                    0,
                    "This is no workbook that can be read.",
                    "Save it again as XLSX, or as CSV.");
        }
        return rows;
    }

    private static String text(Cell c) {
        if (c.getType() == CellType.NUMBER) {
            BigDecimal number = c.asNumber().stripTrailingZeros();
            // Written out, a number of a few characters may have more digits than there is memory.
            boolean isWritable = Math.abs((long) number.scale()) < MOST_DIGITS && number.precision() < MOST_DIGITS;
            return isWritable ? number.toPlainString() : number.toString();
        }
        String text = c.getType() == CellType.FORMULA ? c.getRawValue() : c.getText();
        return text == null ? "" : text;
    }

    /** What unpacks to more than a list can be, or holds what no workbook holds, is refused before anything looks into it. */
    private static void inflate(byte[] file) {
        long inflated = 0;
        byte[] buffer = new byte[65_536];
        Set<String> names = new HashSet<>();
        // The same reader of archives as that of the workbook, so that both see the same entries.
        try (ZipFile zip = ZipFile.builder()
                .setSeekableByteChannel(new SeekableInMemoryByteChannel(file))
                .get()) {
            for (ZipArchiveEntry e : Collections.list(zip.getEntries())) {
                if (!names.add(e.getName()) || names.size() > MOST_ENTRIES) {
                    throw unreadable();
                }
                ByteArrayOutputStream kept = new ByteArrayOutputStream();
                try (InputStream in = zip.getInputStream(e)) {
                    for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                        inflated += n;
                        if (inflated > MOST_INFLATED) {
                            throw wrong(
                                    ProblemKind.TOO_LARGE, 0, 0, "The workbook unpacks to more than is read.", SMALLER);
                        }
                        kept.write(buffer, 0, n);
                    }
                }
                if (e.getName().matches("(?s).*\\.(?i:xml|rels)")
                        && HOSTILE.matcher(kept.toString(StandardCharsets.ISO_8859_1))
                                .find()) {
                    throw wrong(
                            ProblemKind.REFUSED,
                            0,
                            0,
                            "The workbook holds what workbooks do not hold: a type declaration, or a cell out of any sheet.",
                            "Save it again as XLSX, or as CSV.");
                }
            }
        } catch (ProblemException e) {
            throw e;
        } catch (IOException | RuntimeException e) {
            throw unreadable();
        }
    }

    private static ProblemException unreadable() {
        return wrong(
                ProblemKind.SYNTAX, 0, 0, "This is no workbook that can be read.", "Save it again as XLSX, or as CSV.");
    }

    /** {@return the cells as CSV, which {@link #read} reads as the same} */
    public String csv() {
        StringBuilder out = new StringBuilder();
        rows.forEach(r -> out.append(CSVFormat.RFC4180.format(r.toArray())).append("\r\n"));
        return out.toString();
    }

    private static String cell(String text, int row, int column) {
        String clean = text.codePoints()
                .map(c -> Character.isISOControl(c) || Character.getType(c) == Character.FORMAT ? ' ' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString()
                .strip();
        if (clean.length() > MOST_TEXT) {
            throw wrong(
                    ProblemKind.TOO_LARGE,
                    row,
                    column,
                    "This cell has more than " + MOST_TEXT + " characters.",
                    "Shorten it.");
        }
        return clean;
    }

    private static void add(List<List<String>> rows, List<String> cells) {
        if (rows.size() >= MOST_ROWS || cells.size() > MOST_COLUMNS) {
            throw wrong(
                    ProblemKind.TOO_LARGE,
                    rows.size(),
                    0,
                    "A list has at most " + MOST_ROWS + " rows and " + MOST_COLUMNS + " columns.",
                    SMALLER);
        }
        rows.add(cells);
    }

    /** {@return the name of a cell, for example {@code B7}; rows and columns count from 0} */
    static String name(int row, int column) {
        StringBuilder letters = new StringBuilder();
        for (int c = column; c >= 0; c = c / 26 - 1) {
            letters.insert(0, (char) ('A' + c % 26));
        }
        return letters + String.valueOf(row + 1);
    }

    private static ProblemException wrong(ProblemKind kind, int row, int column, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(name(row, column)), message, cure));
    }
}
