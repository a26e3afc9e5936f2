package org.splicebook.panelplan.upgrade;

import java.util.List;

/**
 * One page of the paper for the day: a table, and what is to be said beside it.
 *
 * @param id its key for programs
 * @param title its title
 * @param columns the names of its columns; none where there is no table
 * @param rows the cells, row by row
 * @param notes lines beside the table
 */
public record Page(String id, String title, List<String> columns, List<List<String>> rows, List<String> notes) {
    public Page {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        notes = List.copyOf(notes);
    }

    /** A page of lines alone. */
    static Page lines(String id, String title, List<String> notes) {
        return new Page(id, title, List.of(), List.of(), notes);
    }
}
