package org.splicebook.record;

import java.math.BigDecimal;

/**
 * A number with its unit, kept as written.
 *
 * @param value the number as written
 * @param unit its unit
 */
public record Quantity(BigDecimal value, Unit unit) {
    /** {@return the value in the base unit of its dimension} */
    public double base() {
        return unit.toBase(value.doubleValue());
    }

    /** {@return for example {@code 30 A}} */
    public String said() {
        return value.toPlainString() + " " + unit.symbol();
    }
}
