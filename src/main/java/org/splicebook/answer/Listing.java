package org.splicebook.answer;

import java.util.List;

/**
 * A plain table.
 *
 * @param heading what was asked
 * @param columns the columns' names
 * @param rows the cells, row by row: strings, numbers, booleans or lists of these
 */
public record Listing(Heading heading, List<String> columns, List<List<Object>> rows) implements Reply {
    public Listing {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
    }

    @Override
    public int weight() {
        return 1 + rows.size();
    }
}
