package org.splicebook.loadflow;

/**
 * A load across two terminals.
 *
 * @param model how its current follows the voltage
 * @param amount watts at nominal volts; amperes for {@link Model#CURRENT}; ohms for {@link Model#OHMS}
 * @param powerFactor its power factor, lagging, above 0 to 1
 */
public record Load(Model model, double amount, double powerFactor) {
    /** How a load's current follows the voltage. */
    public enum Model {
        /** A resistance of so many ohms. */
        OHMS,
        /** An impedance that takes its watts at nominal volts: heating, lamps. */
        IMPEDANCE,
        /** The same watts at any voltage that is not far off: electronics, many motors. */
        POWER,
        /** The same amperes at any voltage. */
        CURRENT
    }

    /** Nothing on. */
    public static final Load OFF = new Load(Model.IMPEDANCE, 0, 1);

    public Load {
        if (!(amount >= 0) || Double.isInfinite(amount) || !(powerFactor > 0 && powerFactor <= 1)) {
            throw new IllegalArgumentException("a load of " + amount + " at power factor " + powerFactor);
        }
    }

    /** {@return a resistance} */
    public static Load ohms(double ohms) {
        return new Load(Model.OHMS, ohms, 1);
    }

    /** {@return a resistive load that takes so many watts at nominal volts} */
    public static Load watts(double watts) {
        return new Load(Model.IMPEDANCE, watts, 1);
    }

    /** {@return a load of constant power} */
    public static Load power(double watts, double powerFactor) {
        return new Load(Model.POWER, watts, powerFactor);
    }

    /** {@return a load of constant current} */
    public static Load amperes(double amperes, double powerFactor) {
        return new Load(Model.CURRENT, amperes, powerFactor);
    }

    /** {@return whether it takes anything} */
    public boolean isOn() {
        return amount > 0;
    }

    /** {@return whether its current is in proportion to its voltage} */
    public boolean isLinear() {
        return model == Model.OHMS || model == Model.IMPEDANCE;
    }

    /** {@return its admittance at nominal volts} */
    Complex admittance(double nominalVolts) {
        if (!isOn()) {
            return Complex.ZERO;
        }
        double g = switch (model) {
            case OHMS -> 1 / amount;
            case IMPEDANCE, POWER -> amount / (nominalVolts * nominalVolts);
            case CURRENT -> amount * powerFactor / nominalVolts;
        };
        return new Complex(g, -g * Math.tan(Math.acos(powerFactor)));
    }

    /**
     * {@return its admittance at a voltage}
     *
     * <p>Constant power holds from 0.8 to 1.2 times the nominal voltage, constant current from 0.2 times up; beyond, it goes on as the
     * impedance that it has at that limit, for no device draws on as its voltage goes to nothing.
     */
    Complex admittance(double nominalVolts, double volts) {
        return admittance(nominalVolts).times(factor(volts / nominalVolts));
    }

    /** {@return its admittance at a share of its nominal voltage, as a multiple of that at the whole} */
    double factor(double share) {
        return switch (model) {
            case OHMS, IMPEDANCE -> 1;
            case POWER -> 1 / square(Math.min(1.2, Math.max(0.8, share)));
            case CURRENT -> 1 / Math.max(0.2, share);
        };
    }

    private static double square(double x) {
        return x * x;
    }
}
