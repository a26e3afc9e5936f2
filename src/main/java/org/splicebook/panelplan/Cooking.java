package org.splicebook.panelplan;

import java.util.List;
import java.util.Objects;

/** Demand of electric cooking: table 220.55 with its notes 1 to 3. */
final class Cooking {
    private static final double KILO = 1000;
    private static final double LEAST = DemandTables.number("cooking-limits", "least");
    private static final double SMALL = DemandTables.number("cooking-limits", "small");
    private static final double MIDDLE = DemandTables.number("cooking-limits", "middle");
    private static final double PLAIN = DemandTables.number("cooking-limits", "plain");
    private static final double MOST = DemandTables.number("cooking-limits", "most");
    private static final double EACH = DemandTables.number("cooking-limits", "each-kw-percent") / 100;

    private Cooking() {}

    /**
     * {@return the demand in volt-amperes of cooking appliances with these nameplates; what is at most 1.75 kW or over 27 kW is not in the
     * table and counts in full}
     */
    static double demand(List<Double> nameplates) {
        List<Double> kw = nameplates.stream()
                .map(va -> va / KILO)
                .filter(k -> k > LEAST && k <= MOST)
                .toList();
        double beside = nameplates.stream()
                .mapToDouble(Double::doubleValue)
                .filter(va -> va / KILO <= LEAST || va / KILO > MOST)
                .sum();
        return kw.isEmpty() ? beside : beside + KILO * Math.min(columnC(kw), byColumns(kw));
    }

    /** Column C for all, and notes 1 and 2 above 12 kW. */
    private static double columnC(List<Double> kw) {
        double average =
                kw.stream().mapToDouble(k -> Math.max(k, PLAIN)).average().orElse(PLAIN);
        // A major fraction of a kW counts as one (note 1).
        double over = Math.floor(average - PLAIN + 0.5);
        return kilowatts(kw.size()) * (1 + EACH * over);
    }

    /** Columns A and B by their percentages (note 3), column C for what is larger. */
    private static double byColumns(List<Double> kw) {
        List<Double> small = kw.stream().filter(k -> k < SMALL).toList();
        List<Double> middle = kw.stream().filter(k -> k >= SMALL && k <= MIDDLE).toList();
        List<Double> large = kw.stream().filter(k -> k > MIDDLE).toList();
        return part("cooking-a", small) + part("cooking-b", middle) + (large.isEmpty() ? 0 : columnC(large));
    }

    private static double part(String column, List<Double> kw) {
        double sum = kw.stream().mapToDouble(Double::doubleValue).sum();
        return kw.isEmpty() ? 0 : sum * percent(column, kw.size()) / 100;
    }

    /** {@return percent of column A or B for so many} */
    static double percent(String column, int n) {
        List<Double> first = DemandTables.numbers(column);
        return n <= first.size()
                ? first.get(n - 1)
                : Objects.requireNonNull(DemandTables.from(column + "-above", n))
                        .get(0);
    }

    /** {@return kW of column C for so many} */
    static double kilowatts(int n) {
        List<Double> first = DemandTables.numbers("cooking-c");
        if (n <= first.size()) {
            return first.get(n - 1);
        }
        List<Double> row = Objects.requireNonNull(DemandTables.from("cooking-c-above", n));
        return row.get(0) + row.get(1) * n;
    }

    /** {@return percent of table 220.54 for so many dryers} */
    static double dryerPercent(int n) {
        List<Double> first = DemandTables.numbers("dryers");
        if (n <= first.size()) {
            return first.get(n - 1);
        }
        List<Double> row = Objects.requireNonNull(DemandTables.from("dryers-above", n));
        return row.get(0) - row.get(1) * (n - DemandTables.begins("dryers-above", n));
    }
}
