package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * A price list: what one of a part costs, in whatever money. A part takes the price of the longest line that it begins with, so that
 * {@code breaker 20 A} prices every such breaker that has no line of its own.
 *
 * @param each prices by part
 */
public record Prices(Map<String, Double> each) {
    private static final int MOST_LINES = 10_000;
    private static final String PRICE = "[0-9]{1,7}(\\.[0-9]{1,2})?";

    public Prices {
        each = Map.copyOf(each);
    }

    /** {@return no prices} */
    public static Prices none() {
        return new Prices(Map.of());
    }

    /**
     * {@return a price list, each line a part, a semicolon and a price; or every line that is none}
     *
     * @param file what problems call it
     */
    public static Result<Prices> read(String file, String text) {
        Map<String, Double> each = new LinkedHashMap<>();
        List<Problem> problems = new ArrayList<>();
        List<String> lines = text.lines().limit(MOST_LINES + 1L).toList();
        if (lines.size() > MOST_LINES) {
            return Result.failed(Problem.error(
                    ProblemKind.TOO_LARGE,
                    new Where(file, MOST_LINES + 1, 1, ""),
                    "The price list has more than " + MOST_LINES + " lines.",
                    "Leave out what is not needed."));
        }
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i).strip();
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            int cut = line.lastIndexOf(';');
            String part = cut < 0 ? "" : line.substring(0, cut).strip();
            String price = line.substring(cut + 1).strip();
            if (part.isEmpty() || !price.matches(PRICE)) {
                problems.add(Problem.error(
                        ProblemKind.BAD_VALUE,
                        new Where(file, i + 1, 1, ""),
                        "This is no line of a price list.",
                        "Write a part, a semicolon and a price: breaker 20 A; 12.50"));
            } else if (each.putIfAbsent(part.toLowerCase(Locale.ROOT), Double.valueOf(price)) != null) {
                problems.add(Problem.error(
                        ProblemKind.DUPLICATE,
                        new Where(file, i + 1, 1, ""),
                        "The part " + part + " has a price already.",
                        "Name it once."));
            }
        }
        return problems.isEmpty() ? Result.ok(new Prices(each)) : new Result.Failed<>(problems);
    }

    boolean isEmpty() {
        return each.isEmpty();
    }

    /** {@return what one costs; null where the list does not tell} */
    @Nullable
    Double of(String part) {
        String small = part.toLowerCase(Locale.ROOT);
        return each.entrySet().stream()
                .filter(e -> small.startsWith(e.getKey()))
                .max(java.util.Comparator.comparingInt(e -> e.getKey().length()))
                .map(Map.Entry::getValue)
                .orElse(null);
    }

    static String said(double price) {
        return String.format(Locale.ROOT, "%,.2f", price);
    }
}
