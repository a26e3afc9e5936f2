package org.splicebook.web.view;

import java.util.List;

/** A table under a title. */
public record Rows(String title, List<String> columns, List<List<String>> rows) {
    public Rows {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }
}
