package org.splicebook.panelplan;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What people say beside a record, for a load calculation.
 *
 * @param area in square feet; null takes the record's
 * @param smallAppliance how many small-appliance circuits; null where nothing is said
 * @param laundry how many laundry circuits; null where nothing is said
 * @param rating amperes of the service; null takes the record's
 * @param nameplates volt-amperes by device
 * @param loads loads that the record has not
 * @param without devices that are to be left out, for example because they are replaced
 * @param isAll whether there is no fixed load beside those recorded and told
 */
public record Told(
        @Nullable Double area,
        @Nullable Integer smallAppliance,
        @Nullable Integer laundry,
        @Nullable Double rating,
        Map<String, Double> nameplates,
        List<DemandLoad> loads,
        Set<String> without,
        boolean isAll) {
    public Told {
        nameplates = Map.copyOf(nameplates);
        loads = List.copyOf(loads);
        without = Set.copyOf(without);
    }

    /** {@return nothing told} */
    public static Told nothing() {
        return new Told(null, null, null, null, Map.of(), List.of(), Set.of(), false);
    }
}
