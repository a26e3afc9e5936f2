package org.splicebook.housefile;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;

/** Reads numbers with their units. */
final class Quantities {
    private static final Pattern FORM = Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,6})?)\\s?(\\p{L}[\\p{L}0-9²³]*)?");

    private Quantities() {}

    /**
     * {@return the quantity, or null when it is broken, which the problems say}
     *
     * @param implied the unit where none is written; null where one must be
     */
    static @Nullable Quantity read(
            Node.Scalar from, Unit.Dimension dimension, @Nullable Unit implied, Problems problems) {
        Matcher m = FORM.matcher(from.text().strip());
        if (!m.matches()) {
            problems.error(
                    ProblemKind.BAD_UNIT,
                    from.at(),
                    from.said() + " is not a number with a unit.",
                    "Units that fit: " + fitting(dimension) + ".");
            return null;
        }
        BigDecimal value = new BigDecimal(m.group(1));
        String symbol = m.group(2);
        if (symbol == null) {
            if (implied == null) {
                problems.error(
                        ProblemKind.BAD_UNIT,
                        from.at(),
                        from.said() + " has no unit.",
                        "Units that fit: " + fitting(dimension) + ".");
                return null;
            }
            return new Quantity(value, implied);
        }
        Optional<Unit> unit =
                Unit.find(symbol.replace('²', '2').replace('³', '3').replace("Ω", "ohm"));
        if (unit.isEmpty() || unit.get().dimension() != dimension) {
            problems.error(
                    ProblemKind.BAD_UNIT,
                    from.at(),
                    "The unit " + Said.quoted(symbol) + (unit.isEmpty() ? " is not known." : " does not fit here."),
                    "Units that fit: " + fitting(dimension) + ".");
            return null;
        }
        return new Quantity(value, unit.get());
    }

    private static String fitting(Unit.Dimension dimension) {
        return Arrays.stream(Unit.values())
                .filter(u -> u.dimension() == dimension)
                .map(Unit::symbol)
                .collect(Collectors.joining(", "));
    }
}
