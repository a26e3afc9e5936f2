package org.splicebook.loadflow;

import java.util.Map;
import java.util.Objects;
import org.splicebook.record.SourceKind;
import org.splicebook.record.Wire;

/**
 * What stands behind a source's terminals.
 *
 * @param voltsFactor its voltage as a share of the nominal
 * @param legToLeg impedance between the two legs of a split-phase winding, in ohms; of no account in other systems
 * @param legToNeutral impedance from a leg to the neutral, in ohms
 * @param drop impedance of each conductor between source and house, in ohms
 */
public record SourceModel(double voltsFactor, Complex legToLeg, Complex legToNeutral, Complex drop) {
    /** Without any impedance. */
    public static final SourceModel IDEAL = new SourceModel(1, Complex.ZERO, Complex.ZERO, Complex.ZERO);

    private static final double SHARE_TO_NEUTRAL = 1 / 3.0;

    /**
     * {@return a split-phase transformer, its impedance taken as resistance}
     *
     * @param kva rated kilovolt-amperes
     * @param percent impedance in percent
     * @param volts between its legs
     */
    public static SourceModel transformer(double kva, double percent, double volts) {
        double ohms = percent / 100 * volts * volts / (kva * 1000);
        return new SourceModel(1, Complex.of(ohms), Complex.of(ohms * SHARE_TO_NEUTRAL), Complex.ZERO);
    }

    /** {@return this at the end of a drop, of so many ohms in each conductor} */
    public SourceModel withDrop(Complex ohms) {
        return new SourceModel(voltsFactor, legToLeg, legToNeutral, ohms);
    }

    /** {@return this at another voltage, as a share of the nominal} */
    public SourceModel withVolts(double factor) {
        return new SourceModel(factor, legToLeg, legToNeutral, drop);
    }

    /** {@return what is taken of a source of that kind where the record does not say} */
    static SourceModel typical(SourceKind kind) {
        Map<String, String> row = Objects.requireNonNull(Tables.rows("sources").get(kind.word()));
        Conductor wire = Conductor.of(
                text(row, "drop-size"),
                Wire.Material.valueOf(text(row, "drop-material").toUpperCase(java.util.Locale.ROOT)));
        double metres = Double.parseDouble(text(row, "drop-ft")) * 0.3048;
        return transformer(Double.parseDouble(text(row, "kva")), Double.parseDouble(text(row, "percent")), 240)
                .withDrop(new Complex(wire.ohms(metres, 75), wire.reactancePerMetre() * metres));
    }

    private static String text(Map<String, String> row, String key) {
        return Objects.requireNonNull(row.get(key), key);
    }
}
