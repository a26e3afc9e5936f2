package org.splicebook.panelplan;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.panelplan.DemandLoad.Kind;

/**
 * What each load comes to in the standard method, so that demand rather than nameplates can be laid on legs. Together with the general
 * load they are the method's total, its addition for the largest motor left out.
 *
 * @param loads volt-amperes by load
 * @param general lights, receptacles, small-appliance and laundry circuits together
 */
public record SharedDemand(Map<String, Double> loads, double general) {
    public SharedDemand {
        loads = Map.copyOf(loads);
    }

    /** {@return the shares of a dwelling's loads by an edition; what is not known counts 0, as in the method} */
    public static SharedDemand of(Dwelling d, int edition) {
        Map<String, Double> all = new LinkedHashMap<>();
        List<DemandLoad> appliances = d.of(Kind.APPLIANCE);
        double factor = StandardMethod.applianceFactor(appliances, edition);
        appliances.forEach(l -> all.put(l.name(), l.counted() * (StandardMethod.isCounted(l, edition) ? factor : 1)));
        List<DemandLoad> dryers = d.of(Kind.DRYER);
        dryers.forEach(l -> all.put(
                l.name(),
                Math.max(DemandTables.value("dryer-least", edition), l.counted())
                        * Cooking.dryerPercent(dryers.size())
                        / 100));
        List<DemandLoad> ranges = d.of(Kind.RANGE);
        double plates = d.sum(Kind.RANGE);
        double cooking = Cooking.demand(ranges.stream().map(DemandLoad::counted).toList());
        ranges.forEach(l -> all.put(l.name(), plates == 0 ? 0 : cooking * l.counted() / plates));
        boolean heats = d.sum(Kind.STRIP_HEAT, Kind.ROOM_HEATER) >= d.sum(Kind.COOLING);
        for (DemandLoad l : d.loads()) {
            switch (l.kind()) {
                case HEAT_PUMP, AIR_HANDLER -> all.put(l.name(), l.counted());
                case STRIP_HEAT, ROOM_HEATER -> all.put(l.name(), heats ? l.counted() : 0);
                case COOLING -> all.put(l.name(), heats ? 0 : l.counted());
                case VEHICLE ->
                    all.put(
                            l.name(),
                            l.setPoint() != null
                                    ? l.counted()
                                    : Math.max(
                                            DemandTables.value(
                                                    l.isUnknown() ? "vehicle-unknown" : "vehicle-least", edition),
                                            l.counted()));
                default -> {}
            }
        }
        Sheet s = new Sheet(d, edition);
        return new SharedDemand(all, StandardMethod.lighting(s, edition, s.general("general-va", "general")));
    }
}
