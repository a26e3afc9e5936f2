package org.splicebook.record;

import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What a cable or raceway is. */
public enum CableKind {
    NM("NM", null, true),
    NM_B("NM-B", null, true),
    UF("UF", null, true),
    AC("AC", "armour", true),
    BX("BX", "armour", true),
    MC("MC", "armour", true),
    SE("SE", null, true),
    SER("SER", null, true),
    USE("USE", null, true),
    TWIN_EARTH("TWIN-EARTH", null, true),
    EMT("EMT", "metal", true),
    RMC("RMC", "metal", true),
    IMC("IMC", "metal", true),
    FMC("FMC", "metal", true),
    LFMC("LFMC", "metal", true),
    PVC("PVC", null, true),
    ENT("ENT", null, true),
    SURFACE_RACEWAY("surface-raceway", "metal", true),
    CORD("cord", null, true),
    OPEN_WIRE("open-wire", null, false),
    OTHER("other", null, true);

    private final String word;
    private final @Nullable String metal;
    private final boolean encloses;

    CableKind(String word, @Nullable String metal, boolean encloses) {
        this.word = word;
        this.metal = metal;
        this.encloses = encloses;
    }

    /** {@return the word of the house file} */
    public String word() {
        return word;
    }

    /** {@return the name of its metal as a conductor ({@code armour}, {@code metal}), or null where it has none} */
    public @Nullable String metal() {
        return metal;
    }

    /** {@return whether its wires run together, so that their currents can be judged by their sum} */
    public boolean encloses() {
        return encloses;
    }

    /** {@return the kind with that word, if there is one} */
    public static Optional<CableKind> find(String word) {
        for (CableKind k : values()) {
            if (k.word.equals(word)) {
                return Optional.of(k);
            }
        }
        return Optional.empty();
    }
}
