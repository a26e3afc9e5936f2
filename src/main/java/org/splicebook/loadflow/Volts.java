package org.splicebook.loadflow;

import org.jspecify.annotations.Nullable;

/**
 * What there is between two nodes.
 *
 * @param phasor the voltage of the first to the second; null where it floats
 * @param fed whether the two hang on a recorded source; where not, nothing recorded puts a voltage between them, and a voltage to
 *     anything else floats
 */
public record Volts(@Nullable Complex phasor, boolean fed) {
    /** Between parts that nothing joins: what a meter shows there is not known. */
    static final Volts FLOATS = new Volts(null, false);

    /** {@return whether no voltage can be said, since nothing joins the two} */
    public boolean floats() {
        return phasor == null;
    }

    /**
     * {@return what a meter would show}
     *
     * @throws IllegalStateException where it floats
     */
    public double magnitude() {
        return known().magnitude();
    }

    /**
     * {@return the voltage}
     *
     * @throws IllegalStateException where it floats
     */
    public Complex known() {
        if (phasor == null) {
            throw new IllegalStateException("it floats");
        }
        return phasor;
    }
}
