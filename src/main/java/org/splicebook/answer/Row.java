package org.splicebook.answer;

import java.util.List;
import java.util.Map;
import org.splicebook.record.Basis;
import org.splicebook.record.Ordered;

/**
 * One row of an answer.
 *
 * @param subject what it is about, by name: a load point, a wire, a breaker
 * @param status shown, possible or excluded
 * @param basis the weakest basis on the way it rests on
 * @param columns further columns in order
 * @param why the way, box by box, in words
 * @param ways the same as data; empty where the row rests on no single way
 */
public record Row(
        String subject, Status status, Basis basis, Map<String, Object> columns, List<String> why, List<Reason> ways) {
    /** The column that says which revision of the house asks for what the row tells; empty where none does. */
    public static final String REVISION = "revision";

    /** In which part of the answer a row stands. */
    public enum Status {
        /** The record shows it. */
        SHOWN,
        /** It is possible. */
        POSSIBLE,
        /** It is excluded, by what is marked complete or by tests that agree. */
        EXCLUDED
    }

    public Row {
        columns = Ordered.map(columns);
        why = List.copyOf(why);
        ways = List.copyOf(ways);
    }

    /** A row with no way as data. */
    public Row(String subject, Status status, Basis basis, Map<String, Object> columns, List<String> why) {
        this(subject, status, basis, columns, why, List.of());
    }
}
