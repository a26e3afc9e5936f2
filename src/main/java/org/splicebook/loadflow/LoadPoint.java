package org.splicebook.loadflow;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A load point in the circuit.
 *
 * @param name the device, or {@code device.top}
 * @param device its device
 * @param kind the word of the device's kind
 * @param load the word for what hangs on it, if said
 * @param box where it is
 * @param place the room, if said
 * @param receptacle whether things are plugged into it
 * @param ground the node of its ground terminal; -1 where it has none
 * @param pairs the terminal pairs that a load may sit across
 */
public record LoadPoint(
        String name,
        String device,
        String kind,
        @Nullable String load,
        String box,
        @Nullable String place,
        boolean receptacle,
        int ground,
        List<Pair> pairs) {
    /**
     * Two terminals of a load point.
     *
     * @param branch the branch that stands for the load, from the first terminal to the second
     * @param volts nominal
     * @param typical the load that is typical of it
     */
    public record Pair(int branch, double volts, Load typical) {}

    public LoadPoint {
        pairs = List.copyOf(pairs);
    }
}
