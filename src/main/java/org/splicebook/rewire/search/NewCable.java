package org.splicebook.rewire.search;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Provenance;
import org.splicebook.record.Wire;

/** Cables that are to come: how they are called and made, and along which of today's cables they could run. */
final class NewCable {
    /** How many cables long a run counts at most: where nothing leads there. */
    static final int FAR = 9;

    private NewCable() {}

    /** {@return a name that no cable of a house has} */
    static String name(House house) {
        int i = 1;
        while (house.cables().containsKey("new-" + i)) {
            i++;
        }
        return "new-" + i;
    }

    /** {@return a cable of copper wires with these colours, which are their names too} */
    static Cable of(String name, List<String> colours, @Nullable String size, String a, String b) {
        List<Wire> wires = new ArrayList<>();
        colours.forEach(c -> wires.add(new Wire(c, c, size, Wire.Material.COPPER, false)));
        return new Cable(
                name,
                CableKind.NM,
                null,
                wires,
                List.of(new CableEnd.At(a), new CableEnd.At(b)),
                List.of(),
                null,
                Provenance.NONE);
    }

    /** {@return the cables along which new ones could run: the fewest from one end to the other; none where nothing leads there} */
    static List<Cable> along(House house, Cable made) {
        String from = made.ends().get(0).boxOrNull();
        String to = made.ends().get(1).boxOrNull();
        Map<String, Cable> by = new HashMap<>();
        Map<String, String> back = new HashMap<>();
        ArrayDeque<String> queue = new ArrayDeque<>();
        if (from != null && to != null) {
            queue.add(from);
            back.put(from, from);
        }
        while (!queue.isEmpty() && !back.containsKey(to)) {
            String at = queue.remove();
            for (Cable c : house.cables().values()) {
                String a = c.ends().get(0).boxOrNull();
                String b = c.ends().get(1).boxOrNull();
                String next = at.equals(a) ? b : at.equals(b) ? a : null;
                if (next != null && !back.containsKey(next)) {
                    back.put(next, at);
                    by.put(next, c);
                    queue.add(next);
                }
            }
        }
        List<Cable> all = new ArrayList<>();
        for (String at = to; at != null && by.containsKey(at); at = back.get(at)) {
            all.add(0, by.get(at));
        }
        return all;
    }

    /** {@return how many cables long the new ones among moves run} */
    static int run(House house, List<Move> moves) {
        int run = 0;
        for (Move m : moves) {
            if (m instanceof Move.AddCable a) {
                int along = along(house, a.cable()).size();
                run += along == 0 ? FAR : along;
            }
        }
        return run;
    }

    /** {@return for each new cable how long it may be, in words} */
    static List<String> said(House house, List<Move> moves) {
        List<String> all = new ArrayList<>();
        for (Move m : moves) {
            if (m instanceof Move.AddCable a) {
                List<Cable> along = along(house, a.cable());
                List<String> lengths = along.stream()
                        .map(c -> c.name()
                                + (c.length() == null ? "" : " (" + c.length().said() + ")"))
                        .toList();
                all.add("The new cable " + a.cable().name()
                        + (along.isEmpty()
                                ? " has a way to find: no cable leads from its one end to the other today."
                                : " could run as " + String.join(" and ", lengths) + " "
                                        + (along.size() == 1 ? "does" : "do") + "; measure its way."));
            }
        }
        return all;
    }
}
