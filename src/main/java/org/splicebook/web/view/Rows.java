package org.splicebook.web.view;

import java.util.List;

/**
 * A table under a title.
 *
 * @param title its title; may be empty
 * @param columns the words at the head of its columns
 * @param rows its rows
 * @param to where the first cell of each row leads; empty where nowhere
 */
public record Rows(String title, List<String> columns, List<List<String>> rows, List<String> to) {
    public Rows {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        to = List.copyOf(to);
    }
}
