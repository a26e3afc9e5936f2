package org.splicebook.render;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;

/** A plan for a new panel as a workbook (XLSX): a sheet for each page. Every cell is text or a number, none a formula. */
public final class PlanWorkbook {
    private static final int NARROW = 14;
    private static final int WIDE = 60;
    private static final int LEAST_LINE = 90;
    private static final double POINTS_A_LINE = 15;
    private static final String INDENT = "    ";

    private PlanWorkbook() {}

    /** {@return the workbook} */
    public static byte[] write(UpgradePlan plan, List<Page> pages) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (Workbook book = new Workbook(out, "Splicebook", "1.0")) {
            for (Page p : pages) {
                sheet(book.newWorksheet(p.id()), plan, p);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static void sheet(Worksheet s, UpgradePlan plan, Page p) {
        List<Integer> widths = widths(p);
        int wide =
                Math.max(LEAST_LINE, widths.stream().mapToInt(Integer::intValue).sum());
        int row = lines(s, 0, PlanText.title(plan), wide);
        s.value(row, 0, p.title());
        s.style(row, 0).bold().set();
        s.value(++row, 0, ReplyText.DRAFT);
        row += 2;
        if (!p.columns().isEmpty()) {
            cells(s, row, p.columns(), widths);
            s.range(row, 0, row, p.columns().size() - 1)
                    .style()
                    .bold()
                    .wrapText(true)
                    .verticalAlignment("top")
                    .set();
            s.freezePane(0, row + 1);
            s.repeatRows(row);
            for (int c = 0; c < widths.size(); c++) {
                s.width(c, widths.get(c));
            }
        }
        for (List<String> r : p.rows()) {
            cells(s, ++row, r, widths);
        }
        row += 2;
        for (String note : p.notes()) {
            row = lines(s, row, note, wide);
        }
        row++;
        for (String caution : Caution.forWhat(Leads.TO_A_WIRE)) {
            row = lines(s, row, caution, wide);
        }
        lines(s, row, PlanText.ADVICE, wide);
        s.setFitToPage(true);
        s.fitToWidth((short) 1);
        s.fitToHeight((short) 0);
        s.pageOrientation(wide > LEAST_LINE ? "landscape" : "portrait");
    }

    /** The widths of the columns, in characters; what is longer than the widest takes several lines in its cell. */
    private static List<Integer> widths(Page p) {
        List<Integer> widths = new ArrayList<>();
        for (int c = 0; c < p.columns().size(); c++) {
            int column = c;
            int longest = p.rows().stream()
                    .mapToInt(r -> r.get(column).length())
                    .max()
                    .orElse(0);
            int head = Math.min(p.columns().get(c).length(), NARROW);
            widths.add(Math.min(WIDE, Math.max(longest, head) + 2));
        }
        return widths;
    }

    /** Writes words below one another from a row on, none of which runs out of sight; returns the row after them. */
    private static int lines(Worksheet s, int row, String words, int wide) {
        int next = row;
        for (String line : Lines.wrap(words, wide)) {
            s.value(next, 0, next == row ? line : INDENT + line);
            next++;
        }
        return next;
    }

    private static void cells(Worksheet s, int row, List<String> cells, List<Integer> widths) {
        int most = 1;
        for (int c = 0; c < cells.size(); c++) {
            cell(s, row, c, cells.get(c));
            s.style(row, c).wrapText(true).verticalAlignment("top").set();
            most = Math.max(most, Lines.wrap(cells.get(c), widths.get(c) - 2).size());
        }
        if (most > 1) {
            s.rowHeight(row, most * POINTS_A_LINE);
        }
    }

    private static void cell(Worksheet s, int row, int column, String text) {
        if (text.matches("-?[0-9]{1,3}(,[0-9]{3})*(\\.[0-9]+)?|[0-9]{1,9}(\\.[0-9]+)?")) {
            s.value(row, column, Double.valueOf(text.replace(",", "")));
        } else {
            s.value(row, column, text);
        }
    }
}
