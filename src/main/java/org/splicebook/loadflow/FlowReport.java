package org.splicebook.loadflow;

import java.util.Arrays;
import java.util.Optional;

/** The reports on a house in one state, by the word that asks for them. */
public enum FlowReport {
    /** See {@link OpenNeutral}. */
    OPEN_NEUTRAL("open-neutral", "what each connection of a neutral does when it alone opens, worst first"),
    /** See {@link DeviceHolds}. */
    DEVICE_HOLDS("device-holds", "whether a ground-fault unit holds under these loads (about=UNIT)"),
    /** See {@link BreakerHolds}. */
    BREAKER_HOLDS("breaker-holds", "whether a breaker holds, and where to plug in instead (about=BREAKER)"),
    /** See {@link RunLength}. */
    RUN_LENGTH(
            "run-length",
            "how far a new run can go with each wire (volts=120 amperes=15 share=0.03 power-factor=1, about=LOADPOINT to go on from)"),
    /** See {@link FaultCurrent#atLoadPoints}. */
    FAULT_CURRENT("fault-current", "what a fault draws at every load point, and what clears it"),
    /** See {@link FaultCurrent#atPanels}. */
    PANEL_FAULT("panel-fault", "what a fault draws at the supply lugs of every panel"),
    /** See {@link LooseNeutral}. */
    LOOSE_NEUTRAL("loose-neutral", "which connection of a neutral is loose, fitted to readings (reading=..., meter=1)");

    private final String word;
    private final String tells;

    FlowReport(String word, String tells) {
        this.word = word;
        this.tells = tells;
    }

    /** {@return the word that asks for it} */
    public String word() {
        return word;
    }

    /** {@return what it tells, and what it needs to be told} */
    public String tells() {
        return tells;
    }

    /** {@return the report of that word} */
    public static Optional<FlowReport> of(String word) {
        return Arrays.stream(values()).filter(r -> r.word.equals(word)).findFirst();
    }
}
