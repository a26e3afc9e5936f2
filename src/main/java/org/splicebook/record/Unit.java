package org.splicebook.record;

import java.util.Optional;

/** The units that a record may use. {@link #toBase} turns a value into the base unit of its dimension. */
public enum Unit {
    AMPERE("A", Dimension.CURRENT, 1),
    MILLIAMPERE("mA", Dimension.CURRENT, 1e-3),
    KILOAMPERE("kA", Dimension.CURRENT, 1e3),
    VOLT("V", Dimension.VOLTAGE, 1),
    WATT("W", Dimension.POWER, 1),
    KILOWATT("kW", Dimension.POWER, 1e3),
    VOLT_AMPERE("VA", Dimension.POWER, 1),
    KILOVOLT_AMPERE("kVA", Dimension.POWER, 1e3),
    OHM("ohm", Dimension.RESISTANCE, 1),
    METRE("m", Dimension.LENGTH, 1),
    CENTIMETRE("cm", Dimension.LENGTH, 0.01),
    MILLIMETRE("mm", Dimension.LENGTH, 0.001),
    FOOT("ft", Dimension.LENGTH, 0.3048),
    INCH("in", Dimension.LENGTH, 0.0254),
    SQUARE_METRE("m2", Dimension.AREA, 1),
    SQUARE_FOOT("ft2", Dimension.AREA, 0.09290304),
    CUBIC_INCH("in3", Dimension.VOLUME, 16.387064e-6),
    CUBIC_CENTIMETRE("cm3", Dimension.VOLUME, 1e-6),
    AMERICAN_WIRE_GAUGE("AWG", Dimension.WIRE_SIZE, 1),
    THOUSAND_CIRCULAR_MILS("kcmil", Dimension.WIRE_SIZE, 1),
    SQUARE_MILLIMETRE("mm2", Dimension.WIRE_SIZE, 1);

    /** What a unit measures. */
    public enum Dimension {
        CURRENT,
        VOLTAGE,
        POWER,
        RESISTANCE,
        LENGTH,
        AREA,
        VOLUME,
        WIRE_SIZE
    }

    private final String symbol;
    private final Dimension dimension;
    private final double factor;

    Unit(String symbol, Dimension dimension, double factor) {
        this.symbol = symbol;
        this.dimension = dimension;
        this.factor = factor;
    }

    /** {@return the symbol as written in a house file} */
    public String symbol() {
        return symbol;
    }

    /** {@return what it measures} */
    public Dimension dimension() {
        return dimension;
    }

    /** {@return the value in the base unit of the dimension (A, V, W, ohm, m, m2, m3)} */
    public double toBase(double value) {
        return value * factor;
    }

    /** {@return the unit with that symbol, if there is one} */
    public static Optional<Unit> find(String symbol) {
        for (Unit u : values()) {
            if (u.symbol.equals(symbol)) {
                return Optional.of(u);
            }
        }
        return Optional.empty();
    }
}
