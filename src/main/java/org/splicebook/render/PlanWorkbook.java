package org.splicebook.render;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;

/** A plan for a new panel as a workbook (XLSX): a sheet for each page. Every cell is text or a number, none a formula. */
public final class PlanWorkbook {
    private static final double NARROW = 14;
    private static final double WIDE = 60;
    private static final int LONG = 24;

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
        int row = 0;
        s.value(row, 0, PlanText.title(plan));
        s.value(++row, 0, p.title());
        s.style(row, 0).bold().set();
        s.value(++row, 0, ReplyText.DRAFT);
        row += 2;
        for (int c = 0; c < p.columns().size(); c++) {
            int column = c;
            s.value(row, c, p.columns().get(c));
            s.style(row, c).bold().set();
            boolean isLong = p.rows().stream().anyMatch(r -> r.get(column).length() > LONG);
            s.width(c, isLong ? WIDE : NARROW);
        }
        for (List<String> cells : p.rows()) {
            row++;
            for (int c = 0; c < cells.size(); c++) {
                cell(s, row, c, cells.get(c));
            }
        }
        row++;
        for (String note : p.notes()) {
            s.value(++row, 0, note);
        }
        row++;
        for (String caution : Caution.forWhat(Leads.TO_A_WIRE)) {
            s.value(++row, 0, caution);
        }
        s.value(++row, 0, PlanText.ADVICE);
        if (p.columns().isEmpty()) {
            s.width(0, WIDE * 2);
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
