package org.splicebook.wiring;

import java.util.List;
import org.splicebook.record.House;

/**
 * All that is derived from one record.
 *
 * @param house the record
 * @param loadPoints each load point's feeds, returns, reliance and protection
 * @param wires what each wire is
 * @param islands the neutral islands
 * @param crossings the crossings, proper multiwire circuits among them
 * @param losses what is lost with each thing, things that nothing hangs on left out; derived when first looked at
 * @param openRegions parts whose wiring is not wholly known
 */
public record Wiring(
        House house,
        List<LoadPointWiring> loadPoints,
        List<WireUse> wires,
        List<NeutralIsland> islands,
        List<Crossing> crossings,
        List<Loss> losses,
        List<OpenRegion> openRegions) {
    /** The version of the derivation; a graph stamped with another is not answered from. */
    public static final int VERSION = 1;

    public Wiring {
        loadPoints = List.copyOf(loadPoints);
        wires = List.copyOf(wires);
        islands = List.copyOf(islands);
        crossings = List.copyOf(crossings);
        losses = Later.copyOf(losses);
        openRegions = List.copyOf(openRegions);
    }

    /**
     * A part of the house that something not recorded may join: any breaker in it may feed any load point in it.
     *
     * @param id its id
     * @param boxes the boxes and panels where something is not known
     * @param breakers the breakers whose wires it holds, or that are not known to hold none
     * @param cables the cables with a wire in it; a load point in it may rely on any of them, and on their joints
     * @param loadPoints the load points in it
     */
    public record OpenRegion(
            String id, List<String> boxes, List<String> breakers, List<String> cables, List<String> loadPoints) {
        public OpenRegion {
            boxes = List.copyOf(boxes);
            breakers = List.copyOf(breakers);
            cables = List.copyOf(cables);
            loadPoints = List.copyOf(loadPoints);
        }
    }
}
