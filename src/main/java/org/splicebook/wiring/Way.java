package org.splicebook.wiring;

import java.util.List;
import org.splicebook.record.Basis;

/**
 * A way from a load terminal to the source, hop by hop: terminals, joints, wire ends, wires, devices passed, then pole or bar, bus,
 * feeder and source.
 *
 * @param hops in order, from the load point; made when first looked at
 * @param basis the weakest basis on it
 * @param throughUnknown whether it passes something that is not recorded
 */
public record Way(List<Hop> hops, Basis basis, boolean throughUnknown) {
    /**
     * One hop.
     *
     * @param thing what is passed
     * @param box the box or panel it is in; empty for wires and for sources
     * @param basis how it is known
     */
    public record Hop(Thing thing, String box, Basis basis) {}

    public Way {
        hops = Later.copyOf(hops);
    }
}
