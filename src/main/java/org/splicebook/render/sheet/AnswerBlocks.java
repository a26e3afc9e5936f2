package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.render.ReplyText;
import org.splicebook.render.sheet.Sheet.Block;
import org.splicebook.render.sheet.Sheet.Grid;
import org.splicebook.render.sheet.Sheet.Ticks;
import org.splicebook.render.sheet.Sheet.Title;
import org.splicebook.render.sheet.Sheet.Words;

/** An answer on paper: its rows with columns to write in, its lines with boxes to tick. Nothing of it is left out but the ways. */
final class AnswerBlocks {
    private AnswerBlocks() {}

    /** {@return its blocks; {@code written} are columns to be filled in by hand beside what is shown or possible} */
    static List<Block> of(Answer a, List<String> written) {
        List<Block> blocks = new ArrayList<>(List.of(new Words(a.outcome())));
        rows(blocks, Row.Status.SHOWN, a, written);
        rows(blocks, Row.Status.POSSIBLE, a, written);
        for (Answer.Section s : a.sections()) {
            ticks(blocks, s.title(), s.isInOrder(), s.lines());
        }
        List<String> excluded = a.rows(Row.Status.EXCLUDED).stream()
                .map(Row::subject)
                .distinct()
                .toList();
        if (!excluded.isEmpty()) {
            blocks.add(new Title(ReplyText.title(Row.Status.EXCLUDED)));
            blocks.add(new Words(String.join(", ", excluded) + "."));
        }
        lines(blocks, "Assumed", a.assumed());
        lines(blocks, "Not proven by the given facts", a.notProven());
        ticks(blocks, "What would settle it", false, a.wouldSettle());
        return blocks;
    }

    private static void rows(List<Block> blocks, Row.Status status, Answer a, List<String> written) {
        List<Row> rows = a.rows(status);
        if (rows.isEmpty()) {
            return;
        }
        Set<String> names = new LinkedHashSet<>();
        rows.forEach(r -> names.addAll(r.columns().keySet()));
        List<String> columns = new ArrayList<>(List.of("what"));
        columns.addAll(names);
        columns.add("basis");
        columns.addAll(written);
        List<List<String>> cells = new ArrayList<>();
        for (Row r : rows) {
            List<String> line = new ArrayList<>(List.of(r.subject()));
            names.forEach(n -> line.add(said(r.columns().getOrDefault(n, ""))));
            line.add(r.basis().word());
            written.forEach(w -> line.add(""));
            cells.add(line);
        }
        blocks.add(new Title(ReplyText.title(status)));
        blocks.add(new Grid(columns, cells));
    }

    /** An empty cell is to be written in, so what is known to be nothing is a dash. */
    private static String said(Object value) {
        String words = value instanceof List<?> l
                ? String.join(", ", l.stream().map(String::valueOf).toList())
                : value instanceof Boolean b ? b ? "yes" : "no" : String.valueOf(value);
        return words.isBlank() ? "–" : words;
    }

    private static void ticks(List<Block> blocks, String title, boolean isInOrder, List<String> lines) {
        if (!lines.isEmpty()) {
            blocks.add(new Title(title));
            blocks.add(new Ticks(isInOrder, lines));
        }
    }

    private static void lines(List<Block> blocks, String title, List<String> lines) {
        if (!lines.isEmpty()) {
            blocks.add(new Title(title));
            lines.forEach(l -> blocks.add(new Words(l)));
        }
    }
}
