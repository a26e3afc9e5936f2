package org.splicebook.record;

import java.util.List;

/** A supply system: its hot poles with nominal volts to neutral and angle. Every system has a neutral {@code n} and a ground {@code g}. */
public enum SourceSystem {
    SPLIT_PHASE_120_240("split-phase 120/240", List.of(new Pole("l1", 120, 0), new Pole("l2", 120, 180))),
    WYE_120_208("wye 120/208", List.of(new Pole("a", 120, 0), new Pole("b", 120, -120), new Pole("c", 120, 120))),
    WYE_120_208_TWO_LEGS("wye 120/208 two legs", List.of(new Pole("a", 120, 0), new Pole("b", 120, -120))),
    SINGLE_120("single 120", List.of(new Pole("l1", 120, 0))),
    SINGLE_230("single 230", List.of(new Pole("l1", 230, 0))),
    WYE_230_400("wye 230/400", List.of(new Pole("a", 230, 0), new Pole("b", 230, -120), new Pole("c", 230, 120)));

    /**
     * One hot pole of a source.
     *
     * @param terminal its terminal's name
     * @param volts nominal volts to neutral
     * @param degrees phase angle
     */
    public record Pole(String terminal, double volts, double degrees) {}

    private final String word;
    private final List<Pole> poles;

    SourceSystem(String word, List<Pole> poles) {
        this.word = word;
        this.poles = poles;
    }

    /** {@return the words of the house file} */
    public String word() {
        return word;
    }

    /** {@return the hot poles in order of legs} */
    public List<Pole> poles() {
        return poles;
    }
}
