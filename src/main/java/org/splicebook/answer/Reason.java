package org.splicebook.answer;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.Basis;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/**
 * One way that a row rests on.
 *
 * @param about where it begins and what it tells, for example {@code From bench-1.top.hot}
 * @param steps what it passes, in order, towards the source
 */
public record Reason(String about, List<Step> steps) {
    /**
     * One thing that is passed.
     *
     * @param kind what it is
     * @param name its name, as {@link ThingKind} says
     * @param box the box or panel it is in; empty where it is in none
     * @param colour of a wire or wire end: its colour; else empty
     * @param basis how it is known
     */
    public record Step(ThingKind kind, String name, String box, String colour, Basis basis) {
        /** {@return the cable that it belongs to; empty where it is no wire and no wire end} */
        public String cable() {
            boolean inCable = kind == ThingKind.WIRE || kind == ThingKind.WIRE_END;
            return inCable ? name.substring(0, Math.max(0, name.indexOf('.'))) : "";
        }
    }

    public Reason {
        steps = List.copyOf(steps);
    }

    /** {@return a way of a house as a reason} */
    public static Reason of(String about, Way way, House house) {
        return new Reason(
                about,
                way.hops().stream()
                        .map(h -> new Step(
                                h.thing().kind(), h.thing().name(), h.box(), colour(h.thing(), house), h.basis()))
                        .toList());
    }

    private static String colour(Thing thing, House house) {
        boolean isWire = thing.kind() == ThingKind.WIRE || thing.kind() == ThingKind.WIRE_END;
        String name = thing.name();
        int dot = name.indexOf('.');
        Cable cable = isWire && dot > 0 ? house.cables().get(name.substring(0, dot)) : null;
        if (cable == null) {
            return "";
        }
        int at = name.indexOf('@', dot);
        String wire = name.substring(dot + 1, at < 0 ? name.length() : at);
        for (Wire w : cable.wires()) {
            if (w.name().equals(wire)) {
                return w.colour();
            }
        }
        return "";
    }

    /** {@return the ways in words, one after the other} */
    public static List<String> say(List<Reason> ways) {
        List<String> lines = new ArrayList<>();
        for (Reason r : ways) {
            lines.add(r.about() + (r.steps().isEmpty() ? ", over what is not recorded." : ":"));
            lines.addAll(HopWords.say(r.steps()));
        }
        return lines;
    }
}
