package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.WireUse;

/** The last resort: a new cable that brings hot, neutral and ground of one circuit together to a load. */
final class CableAtoms {
    private final State state;

    private final Map<String, List<WireUse.Use>> uses = new HashMap<>();

    CableAtoms(State state) {
        this.state = state;
        state.wiring().wires().forEach(w -> uses.put(w.wire(), w.uses()));
    }

    /** {@return new cables to the box of a load point, from every other box where one circuit has its hot and its own neutral} */
    List<List<Move>> to(LoadPointWiring point) {
        List<List<Move>> all = new ArrayList<>();
        Box box = state.house().boxes().get(point.box());
        if (box == null) {
            return all;
        }
        Set<String> hots = ends(box, point, "hot");
        Set<String> neutrals = ends(box, point, "neutral");
        for (Box from : state.house().boxes().values()) {
            if (!from.name().equals(box.name())) {
                for (NeutralIsland island : state.wiring().islands()) {
                    if (island.poles().size() == 1) {
                        from(from, island, box, hots, neutrals, all);
                    }
                }
            }
        }
        return all;
    }

    private void from(
            Box from, NeutralIsland island, Box box, Set<String> hots, Set<String> neutrals, List<List<Move>> all) {
        String pole = island.poles().get(0);
        String hot = member(from, Conductor.HOT, pole, Set.of());
        String neutral = member(from, Conductor.NEUTRAL, null, Set.copyOf(island.wires()));
        if (hot == null || neutral == null) {
            return;
        }
        String ground = member(from, Conductor.GROUND, null, Set.of());
        String size = size(hot);
        Cable cable = cable(name(), size, from.name(), box.name());
        String k = cable.name();
        for (String h : hots) {
            for (String n : neutrals) {
                List<Move> moves = new ArrayList<>(List.of(
                        new Move.AddCable(cable),
                        new Move.Shift(from.name(), k + ".black", hot),
                        new Move.Shift(from.name(), k + ".white", neutral)));
                String there = member(box, Conductor.GROUND, null, Set.of());
                if (ground != null && there != null) {
                    moves.add(new Move.Shift(from.name(), k + ".bare", ground));
                    moves.add(new Move.Shift(box.name(), k + ".bare", there));
                }
                moves.add(new Move.Shift(box.name(), h, k + ".black"));
                moves.add(new Move.Shift(box.name(), n, k + ".white"));
                all.add(moves);
            }
        }
    }

    /** What might be lifted to part a load from its feed or return: its terminal, and wires in its joint. */
    private static Set<String> ends(Box box, LoadPointWiring point, String what) {
        Set<String> all = new LinkedHashSet<>();
        for (Joint j : box.joints()) {
            boolean isIts = j.members().stream()
                    .anyMatch(r -> r instanceof Ref.DeviceTerminal t
                            && t.device().equals(point.device())
                            && t.terminal().endsWith(what));
            if (isIts) {
                j.members().stream()
                        .filter(r -> r instanceof Ref.DeviceTerminal)
                        .forEach(r -> all.add(r.said()));
            }
        }
        return all;
    }

    private @Nullable String member(Box box, Conductor what, @Nullable String pole, Set<String> among) {
        for (Joint j : box.joints()) {
            for (Ref r : j.members()) {
                if (r instanceof Ref.WireEnd w) {
                    String wire = w.cable() + "." + w.wire();
                    if ((among.isEmpty() || among.contains(wire)) && does(wire, what, pole)) {
                        return r.said();
                    }
                }
            }
        }
        return null;
    }

    private boolean does(String wire, Conductor what, @Nullable String pole) {
        List<WireUse.Use> u = uses.getOrDefault(wire, List.of());
        return u.size() == 1
                && u.get(0).conductor() == what
                && (pole == null || pole.equals(u.get(0).pole()));
    }

    private @Nullable String size(String end) {
        String[] parts = end.split("[.@]");
        Cable c = state.house().cables().get(parts[0]);
        return c == null
                ? null
                : c.wires().stream()
                        .filter(w -> w.name().equals(parts[1]))
                        .findFirst()
                        .map(Wire::size)
                        .orElse(null);
    }

    private String name() {
        int i = 1;
        while (state.house().cables().containsKey("new-" + i)) {
            i++;
        }
        return "new-" + i;
    }

    private static Cable cable(String name, @Nullable String size, String a, String b) {
        List<Wire> wires = List.of(
                new Wire("black", "black", size, Wire.Material.COPPER, false),
                new Wire("white", "white", size, Wire.Material.COPPER, false),
                new Wire("bare", "bare", size, Wire.Material.COPPER, false));
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
}
