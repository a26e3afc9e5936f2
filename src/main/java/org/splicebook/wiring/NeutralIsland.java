package org.splicebook.wiring;

import java.util.List;

/**
 * Neutral wires that are joined, bars and feeders left out. Protective contacts and tabs that are in join; levers do not.
 *
 * @param id the alphabetically first of its landings on bars, as a joint's name
 * @param landings its landings on neutral bars
 * @param wires its wires
 * @param poles the poles whose returns it carries, in some lever position
 * @param loadPoints the load points that return on it
 */
public record NeutralIsland(
        String id, List<String> landings, List<String> wires, List<String> poles, List<String> loadPoints) {
    public NeutralIsland {
        landings = List.copyOf(landings);
        wires = List.copyOf(wires);
        poles = List.copyOf(poles);
        loadPoints = List.copyOf(loadPoints);
    }
}
