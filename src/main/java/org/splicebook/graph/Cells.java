package org.splicebook.graph;

import java.util.List;
import org.neo4j.driver.Value;

/** Turns what the database returns into what a cell may hold: texts, numbers, truth values, and lists of these. */
final class Cells {
    private Cells() {}

    /** {@return the value; an empty text where nothing is known} */
    static Object plain(Value value) {
        return value.isNull() ? "" : plain(value.asObject());
    }

    private static Object plain(Object value) {
        if (value instanceof List<?> list) {
            return list.stream().map(e -> e == null ? "" : plain(e)).toList();
        }
        return value instanceof Number || value instanceof Boolean ? value : String.valueOf(value);
    }
}
