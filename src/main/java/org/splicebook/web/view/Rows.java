package org.splicebook.web.view;

import java.util.List;

/**
 * A table under a title.
 *
 * @param title its title; may be empty
 * @param columns the words at the head of its columns
 * @param rows its rows
 * @param to where the first cell of each row leads; empty where nowhere
 * @param notes lines under it; they may stand alone
 * @param isFolded whether only its title is shown at first
 */
public record Rows(
        String title,
        List<String> columns,
        List<List<String>> rows,
        List<String> to,
        List<String> notes,
        boolean isFolded) {
    /** A table with nothing under it. */
    public Rows(String title, List<String> columns, List<List<String>> rows, List<String> to) {
        this(title, columns, rows, to, List.of(), false);
    }

    public Rows {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        to = List.copyOf(to);
        notes = List.copyOf(notes);
    }
}
