package org.splicebook.spreadsheet;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.record.House;

/**
 * What a list would do to a house, before anything is stored.
 *
 * @param columns which column each field was taken from: field to heading
 * @param headings all headings
 * @param unused the headings of which nothing is taken
 * @param lines what each row would do, row by row: {@code 4: main.1+3 is new: 40 A, Range}
 * @param problems what is wrong, by cell
 * @param house the house with it; null where something is wrong
 */
public record Intake(
        Map<String, String> columns,
        List<String> headings,
        List<String> unused,
        List<String> lines,
        List<Problem> problems,
        @Nullable House house) {
    public Intake {
        columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
        headings = List.copyOf(headings);
        unused = List.copyOf(unused);
        lines = List.copyOf(lines);
        problems = List.copyOf(problems);
    }
}
