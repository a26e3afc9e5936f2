package org.splicebook.render;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;

/**
 * A reply as a file for spreadsheets: one row for each of its rows under the columns' names, then, apart, what was asked, what it
 * assumes and does not prove, and the cautions. No cell can run as a formula.
 */
public final class TableFile {
    /** What kind of file. */
    public enum Form {
        /** RFC 4180, UTF-8. */
        CSV("text/csv; charset=utf-8"),
        /** Office Open XML. */
        XLSX("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet");

        private final String type;

        Form(String type) {
            this.type = type;
        }

        /** {@return its media type} */
        public String type() {
            return type;
        }

        /** {@return the form that a file's name ends in, if it is one} */
        public static Optional<Form> of(String name) {
            String end = name.substring(name.lastIndexOf('.') + 1).toUpperCase(Locale.ROOT);
            return java.util.Arrays.stream(values())
                    .filter(f -> f.name().equals(end))
                    .findFirst();
        }
    }

    private static final String FORMULA_STARTS = "=+-@\t\r";
    private static final int WIDEST = 60;
    private static final int LONGEST_CELL = 32_000;

    private TableFile() {}

    /** {@return the file's bytes} */
    public static byte[] of(Reply reply, Form form) {
        try {
            return form == Form.CSV ? csv(reply) : xlsx(reply);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static byte[] csv(Reply reply) {
        StringBuilder out = new StringBuilder();
        line(out, columns(reply).stream().map(c -> (Object) harmless(c)).toList());
        rows(reply)
                .forEach(row -> line(out, row.stream().map(TableFile::csvCell).toList()));
        out.append("\r\n");
        about(reply).forEach(said -> line(out, List.of(harmless(said))));
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static void line(StringBuilder out, List<Object> cells) {
        out.append(CSVFormat.RFC4180.format(cells.toArray())).append("\r\n");
    }

    private static Object csvCell(Object value) {
        return value instanceof Number ? value : harmless(Table.cell(value));
    }

    /** A spreadsheet takes what begins so for a formula; a quote before it makes it text. */
    private static String harmless(String text) {
        return !text.isEmpty() && FORMULA_STARTS.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
    }

    private static byte[] xlsx(Reply reply) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (Workbook book = new Workbook(out, "Splicebook", "1.0")) {
            Worksheet sheet = book.newWorksheet("Rows");
            List<String> columns = columns(reply);
            for (int c = 0; c < columns.size(); c++) {
                sheet.value(0, c, columns.get(c));
                sheet.style(0, c).bold().set();
                sheet.width(c, width(columns.get(c), reply, c));
            }
            int r = 1;
            for (List<Object> row : rows(reply)) {
                for (int c = 0; c < row.size(); c++) {
                    cell(sheet, r, c, row.get(c));
                }
                r++;
            }
            sheet.freezePane(0, 1);
            Worksheet about = book.newWorksheet("About");
            about.width(0, 2 * WIDEST);
            int line = 0;
            for (String said : about(reply)) {
                about.value(line, 0, said);
                about.style(line++, 0).wrapText(true).set();
            }
        }
        return out.toByteArray();
    }

    private static void cell(Worksheet sheet, int r, int c, Object value) {
        if (value instanceof Number n) {
            sheet.value(r, c, n);
        } else {
            String text = Table.cell(value);
            sheet.value(r, c, text.length() > LONGEST_CELL ? text.substring(0, LONGEST_CELL) + "..." : text);
        }
    }

    private static int width(String column, Reply reply, int c) {
        int longest = column.length();
        for (List<Object> row : rows(reply)) {
            longest = Math.max(longest, Table.cell(row.get(c)).length());
        }
        return Math.min(WIDEST, longest + 2);
    }

    private static List<String> columns(Reply reply) {
        if (reply instanceof Listing l) {
            return l.columns();
        }
        List<String> columns = new ArrayList<>(List.of("subject", "status", "basis"));
        columns.addAll(names((Answer) reply));
        columns.add("why");
        return columns;
    }

    private static Set<String> names(Answer answer) {
        Set<String> names = new LinkedHashSet<>();
        answer.rows().forEach(r -> names.addAll(r.columns().keySet()));
        return names;
    }

    private static List<List<Object>> rows(Reply reply) {
        if (reply instanceof Listing l) {
            return l.rows();
        }
        Answer answer = (Answer) reply;
        Set<String> names = names(answer);
        List<List<Object>> rows = new ArrayList<>();
        for (Row r : answer.rows()) {
            List<Object> cells = new ArrayList<>(List.of(
                    r.subject(),
                    r.status().name().toLowerCase(Locale.ROOT),
                    r.basis().word()));
            names.forEach(n -> cells.add(r.columns().getOrDefault(n, "")));
            cells.add(String.join("; ", r.why()));
            rows.add(cells);
        }
        return rows;
    }

    private static List<String> about(Reply reply) {
        Heading h = reply.heading();
        List<String> lines = new ArrayList<>();
        lines.add(h.words());
        if (h.draft()) {
            lines.add(ReplyText.DRAFT);
        }
        if (!h.house().isEmpty()) {
            lines.add(h.houseName() + " (" + h.house() + "), revision " + h.revision() + " of " + h.stored());
        }
        if (reply instanceof Answer a) {
            lines.add(a.outcome());
            a.sections().forEach(s -> s.lines().forEach(l -> lines.add(s.title() + ": " + l)));
            a.assumed().forEach(l -> lines.add("Assumed: " + l));
            a.notProven().forEach(l -> lines.add("Not proven: " + l));
            a.wouldSettle().forEach(l -> lines.add("Would settle it: " + l));
            lines.addAll(a.cautions());
        } else {
            lines.addAll(Caution.forWhat(Leads.TO_A_SWITCH));
        }
        return lines;
    }
}
