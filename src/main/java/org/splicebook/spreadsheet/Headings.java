package org.splicebook.spreadsheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Where a list has its columns.
 *
 * @param row the row of headings, from 0
 * @param all the headings, without those that are empty or stand twice
 * @param halves field to column; a schedule may have two halves side by side, each with its own; never empty
 * @param columns field to heading, of the first half
 * @param unused the headings of which nothing is taken
 * @param problems what is wrong
 */
record Headings(
        int row,
        List<String> all,
        List<Map<String, Integer>> halves,
        Map<String, String> columns,
        List<String> unused,
        List<Problem> problems) {
    private static final int MOST_ABOVE = 10;

    /** Finds the row of headings among the first ten: that with the most that are known. */
    static Headings find(Cells cells, ListKind kind, Map<String, String> named) {
        Map<String, List<String>> fields = ColumnNames.of(kind);
        List<Problem> problems = new ArrayList<>();
        named.keySet().stream()
                .filter(f -> !fields.containsKey(f))
                .forEach(f -> problems.add(
                        problem(0, f + " is no column of such a list.", "There are " + words(fields.keySet()))));
        int best = 0;
        int row = 0;
        for (int r = 0; r < Math.min(MOST_ABOVE, cells.rows().size()); r++) {
            int known = matched(fields, named, bare(cells.rows().get(r)), 0).size();
            if (known > best) {
                best = known;
                row = r;
            }
        }
        if (best == 0) {
            problems.add(problem(0, "No row of headings is known.", "Head the columns " + words(fields.keySet())));
            return new Headings(0, List.of(), List.of(Map.of()), Map.of(), List.of(), problems);
        }
        List<String> written = cells.rows().get(row);
        List<Map<String, Integer>> halves = halves(fields, named, bare(written));
        Map<String, Integer> first = halves.get(0);
        int at = row;
        named.forEach((field, heading) -> {
            if (fields.containsKey(field) && !first.containsKey(field) && !heading.equals(Intakes.NONE)) {
                problems.add(
                        problem(at, "No column is headed \"" + heading + "\".", "There are " + words(told(written))));
            }
        });
        Map.Entry<String, List<String>> needed = fields.entrySet().iterator().next();
        if (!first.containsKey(needed.getKey())) {
            problems.add(problem(
                    row, "No column says the " + needed.getKey() + ".", "Head one " + words(needed.getValue())));
        }
        Map<String, String> columns = new LinkedHashMap<>();
        first.forEach((field, c) -> columns.put(field, written.get(c)));
        List<String> unused = new ArrayList<>();
        for (int c = 0; c < written.size(); c++) {
            int column = c;
            if (!written.get(c).isEmpty() && halves.stream().noneMatch(h -> h.containsValue(column))) {
                unused.add(written.get(c));
            }
        }
        return new Headings(row, told(written), halves, columns, unused, problems);
    }

    /** Where the heading of the first field stands twice, each begins a half, what stands before the first belonging to it. */
    private static List<Map<String, Integer>> halves(
            Map<String, List<String>> fields, Map<String, String> named, List<String> headings) {
        List<Map<String, Integer>> halves = new ArrayList<>();
        Integer first = matched(fields, named, headings, 0)
                .get(fields.keySet().iterator().next());
        int from = 0;
        if (first != null) {
            for (int c = first + 1; c < headings.size(); c++) {
                if (headings.get(c).equals(headings.get(first))) {
                    halves.add(matched(fields, named, headings.subList(from, c), from));
                    from = c;
                }
            }
        }
        halves.add(matched(fields, named, headings.subList(from, headings.size()), from));
        return halves;
    }

    private static Map<String, Integer> matched(
            Map<String, List<String>> fields, Map<String, String> named, List<String> headings, int from) {
        Map<String, Integer> found = new LinkedHashMap<>();
        fields.forEach((field, words) -> {
            String said = named.get(field);
            List<String> wanted = said == null ? words : List.of(ColumnNames.bare(said));
            for (String w : wanted) {
                int c = headings.indexOf(w);
                if (c >= 0 && !w.isEmpty() && !found.containsKey(field) && !found.containsValue(c + from)) {
                    found.put(field, c + from);
                }
            }
        });
        return found;
    }

    private static List<String> bare(List<String> row) {
        return row.stream().map(ColumnNames::bare).toList();
    }

    private static List<String> told(List<String> row) {
        return row.stream().filter(h -> !h.isEmpty()).distinct().toList();
    }

    private static String words(Iterable<String> words) {
        return String.join(", ", words) + ".";
    }

    private static Problem problem(int row, String message, String cure) {
        return Problem.error(ProblemKind.BAD_VALUE, Where.field(Cells.name(row, 0)), message, cure);
    }
}
