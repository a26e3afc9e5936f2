package org.splicebook.render;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;

/**
 * A table for people. Columns wrap to fit the width; where even that is too narrow, each row becomes a few lines of name and value.
 *
 * @param columns the columns' names
 * @param rows the cells, row by row
 */
public record Table(List<String> columns, List<List<String>> rows) {
    private static final String GAP = "  ";
    private static final int NARROW = 60;
    private static final int LEAST = 8;

    public Table {
        columns = columns.stream().map(Lines::harmless).toList();
        rows = rows.stream().map(r -> r.stream().map(Lines::harmless).toList()).toList();
    }

    /** {@return a value of a row as a cell} */
    public static String cell(Object value) {
        if (value instanceof List<?> list) {
            return String.join(", ", list.stream().map(Table::cell).toList());
        }
        return value instanceof Boolean b ? (b ? "yes" : "no") : String.valueOf(value);
    }

    /** {@return the table in lines of at most that width} */
    public List<String> lines(int width) {
        int[] widths = natural();
        int gaps = GAP.length() * (columns.size() - 1);
        // On a phone cells that wrap in narrow columns are hard to read: one below the other they are not.
        boolean isTight = width < NARROW && total(widths) + gaps > width;
        if (isTight || !shrink(widths, width - gaps)) {
            return stacked(width);
        }
        List<String> lines = new ArrayList<>();
        lines.addAll(row(columns, widths));
        lines.add(String.join(GAP, Arrays.stream(widths).mapToObj("-"::repeat).toList()));
        rows.forEach(r -> lines.addAll(row(r, widths)));
        return lines;
    }

    private int[] natural() {
        int[] widths = new int[columns.size()];
        Stream.concat(Stream.of(columns), rows.stream()).forEach(r -> {
            for (int i = 0; i < widths.length; i++) {
                widths[i] = Math.max(widths[i], Lines.length(r.get(i)));
            }
        });
        return widths;
    }

    /** Takes from the widest column until all fit; false where that leaves too little. */
    private static boolean shrink(int[] widths, int room) {
        while (total(widths) > room) {
            int widest = 0;
            for (int i = 1; i < widths.length; i++) {
                widest = widths[i] > widths[widest] ? i : widest;
            }
            if (widths[widest] <= LEAST) {
                return false;
            }
            widths[widest]--;
        }
        return true;
    }

    private static int total(int[] widths) {
        return Arrays.stream(widths).sum();
    }

    private static List<String> row(List<String> cells, int[] widths) {
        List<List<String>> wrapped = new ArrayList<>();
        for (int i = 0; i < widths.length; i++) {
            wrapped.add(Lines.wrap(cells.get(i), widths[i]));
        }
        int height = Collections.max(wrapped.stream().map(List::size).toList());
        List<String> lines = new ArrayList<>();
        for (int l = 0; l < height; l++) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < widths.length; i++) {
                String part = l < wrapped.get(i).size() ? wrapped.get(i).get(l) : "";
                line.append(i == 0 ? "" : GAP).append(Lines.padded(part, widths[i]));
            }
            lines.add(line.toString().stripTrailing());
        }
        return lines;
    }

    private List<String> stacked(int width) {
        List<String> lines = new ArrayList<>();
        for (List<String> row : rows) {
            for (int i = 0; i < columns.size(); i++) {
                if (i == 0) {
                    lines.addAll(Lines.wrap(row.get(0), width));
                } else if (!row.get(i).isEmpty()) {
                    lines.addAll(Lines.hung("  " + columns.get(i) + ": ", row.get(i), width));
                }
            }
        }
        return lines;
    }
}
