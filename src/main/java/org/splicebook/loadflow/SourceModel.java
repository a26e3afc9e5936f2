package org.splicebook.loadflow;

import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
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

    /** {@return what the record says of a source, and what is typical of its kind where it is silent} */
    static SourceModel of(@Nullable Source source, SourceKind kind, SourceSystem system) {
        Map<String, String> row = Objects.requireNonNull(Tables.rows("sources").get(kind.word()));
        Source.Transformer transformer = source == null ? null : source.transformer();
        double kva = transformer == null
                ? Double.parseDouble(text(row, "kva"))
                : transformer.rating().base() / 1000;
        double percent = transformer == null || transformer.percent() == null
                ? Double.parseDouble(text(row, "percent"))
                : transformer.percent();
        Source.Drop drop = source == null ? null : source.drop();
        double metres = drop == null
                ? Double.parseDouble(text(row, "drop-ft")) * 0.3048
                : drop.length().base();
        Conductor wire = drop == null
                ? Conductor.of(
                        text(row, "drop-size"),
                        Wire.Material.valueOf(text(row, "drop-material").toUpperCase(Locale.ROOT)))
                : Conductor.of(drop.size(), drop.material());
        double nominal = system.poles().get(0).volts();
        double factor =
                source == null || source.volts() == null ? 1 : source.volts().base() / nominal;
        return winding(kva, percent, system)
                .withDrop(new Complex(wire.ohms(metres, 75), wire.reactancePerMetre() * metres))
                .withVolts(factor);
    }

    private static SourceModel winding(double kva, double percent, SourceSystem system) {
        double nominal = system.poles().get(0).volts();
        if (system == SourceSystem.SPLIT_PHASE_120_240) {
            return transformer(kva, percent, 2 * nominal);
        }
        boolean single = system.poles().size() == 1;
        double ohms = percent / 100 * nominal * nominal * (single ? 1 : 3) / (kva * 1000);
        return new SourceModel(1, Complex.ZERO, Complex.of(ohms), Complex.ZERO);
    }

    private static String text(Map<String, String> row, String key) {
        return Objects.requireNonNull(row.get(key), key);
    }
}
