package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.WireUse;

/**
 * The last resort: a new cable that brings hot, neutral and ground of one circuit together to a load, from a box or from a breaker of
 * its own; one that has a neutral more than the one whose place it takes; one that feeds a circuit from another panel.
 */
final class CableAtoms {
    private static final List<String> TWO = List.of("black", "white", "bare");

    private final State state;
    private final Map<String, DeviceKind> kinds;
    private final Map<String, List<WireUse.Use>> uses = new HashMap<>();

    CableAtoms(State state, Map<String, DeviceKind> kinds) {
        this.state = state;
        this.kinds = kinds;
        state.wiring().wires().forEach(w -> uses.put(w.wire(), w.uses()));
    }

    /** {@return steps with new cable for a wish that is about these load points} */
    List<List<Move>> of(Wish wish, List<LoadPointWiring> points) {
        List<List<Move>> all = new ArrayList<>();
        if (wish instanceof Wish.Onto o) {
            return new CircuitAtoms(state).onto(o);
        }
        if (wish instanceof Wish.Put p) {
            wider(p, all);
        }
        for (LoadPointWiring point : points) {
            Box box = state.house().boxes().get(point.box());
            if (box != null) {
                toPoint(box, point, all);
            }
        }
        return all;
    }

    /** From every other box where one circuit has its hot and its own neutral, and from every panel with a free space. */
    private void toPoint(Box box, LoadPointWiring point, List<List<Move>> all) {
        Map<String, List<Move>> hots = ends(box, point, "hot");
        Map<String, List<Move>> neutrals = ends(box, point, "neutral");
        for (Box from : state.house().boxes().values()) {
            if (!from.name().equals(box.name())) {
                for (NeutralIsland island : state.wiring().islands()) {
                    if (island.poles().size() == 1) {
                        fromBox(from, island, box, hots, neutrals, all);
                    }
                }
            }
        }
        for (Panel from : state.house().panels().values()) {
            fromPanel(from, point, box, hots, neutrals, all);
        }
    }

    private void fromBox(
            Box from,
            NeutralIsland island,
            Box box,
            Map<String, List<Move>> hots,
            Map<String, List<Move>> neutrals,
            List<List<Move>> all) {
        String pole = island.poles().get(0);
        String hot = member(from, Conductor.HOT, pole, Set.of());
        String neutral = member(from, Conductor.NEUTRAL, null, Set.copyOf(island.wires()));
        if (hot == null || neutral == null) {
            return;
        }
        String ground = member(from, Conductor.GROUND, null, Set.of());
        Cable cable = NewCable.of(NewCable.name(state.house()), TWO, size(hot), from.name(), box.name());
        String k = cable.name();
        List<Move> first = new ArrayList<>(List.of(
                new Move.AddCable(cable),
                new Move.Shift(from.name(), k + ".black", hot),
                new Move.Shift(from.name(), k + ".white", neutral)));
        if (ground != null) {
            first.add(new Move.Shift(from.name(), k + ".bare", ground));
        }
        join(first, cable, box, ground != null, hots, neutrals, all);
    }

    /** A breaker like the one that feeds the load now, in a free space, and a cable from it. */
    private void fromPanel(
            Panel from,
            LoadPointWiring point,
            Box box,
            Map<String, List<Move>> hots,
            Map<String, List<Move>> neutrals,
            List<List<Move>> all) {
        Breaker like = CircuitAtoms.breaker(
                state.house(),
                point.feeds().isEmpty() ? "" : point.feeds().get(0).breaker());
        String space = CircuitAtoms.free(from, 1);
        if (like == null || space == null || like.spaces().size() > 1 || like.type() != OvercurrentType.BREAKER) {
            return;
        }
        String now = member(box, Conductor.HOT, null, Set.of());
        Cable cable =
                NewCable.of(NewCable.name(state.house()), TWO, now == null ? null : size(now), from.name(), box.name());
        String k = cable.name();
        List<Move> first = List.of(
                new Move.AddCable(cable),
                new Move.ChangeBreaker(from.name(), List.of(), CircuitAtoms.like(like, List.of(space))),
                new Move.Shift(from.name(), k + ".black", space),
                new Move.Shift(from.name(), k + ".white", "n"),
                new Move.Shift(from.name(), k + ".bare", "g"));
        join(first, cable, box, true, hots, neutrals, all);
    }

    private void join(
            List<Move> first,
            Cable cable,
            Box box,
            boolean hasGround,
            Map<String, List<Move>> hots,
            Map<String, List<Move>> neutrals,
            List<List<Move>> all) {
        String there = member(box, Conductor.GROUND, null, Set.of());
        hots.forEach((h, kept) -> neutrals.forEach((n, alsoKept) -> {
            List<Move> moves = new ArrayList<>(first);
            if (hasGround && there != null) {
                moves.add(new Move.Shift(box.name(), cable.name() + ".bare", there));
            }
            moves.addAll(kept);
            moves.addAll(alsoKept);
            moves.add(new Move.Shift(box.name(), h, cable.name() + ".black"));
            moves.add(new Move.Shift(box.name(), n, cable.name() + ".white"));
            all.add(moves);
        }));
    }

    /** What might be lifted to part a load from its feed or return, with what keeps the wires together that only its screws hold. */
    private static Map<String, List<Move>> ends(Box box, LoadPointWiring point, String what) {
        Map<String, List<Move>> all = new LinkedHashMap<>();
        for (Joint j : box.joints()) {
            boolean isIts = j.members().stream()
                    .anyMatch(r -> r instanceof Ref.DeviceTerminal t
                            && t.device().equals(point.device())
                            && t.terminal().endsWith(what));
            if (isIts) {
                List<String> others = j.members().stream()
                        .filter(r -> r instanceof Ref.WireEnd)
                        .map(Ref::said)
                        .toList();
                boolean isHeld = j.hold() != Joint.Hold.TAIL && j.hold() != Joint.Hold.SPLICE && others.size() > 1;
                List<Move> kept = isHeld ? List.of(new Move.Splice(box.name(), others, null)) : List.of();
                j.members().stream()
                        .filter(r -> r instanceof Ref.DeviceTerminal)
                        .forEach(r -> all.put(r.said(), kept));
            }
        }
        return all;
    }

    /** Another kind of device, and in the place of a cable to it one with a neutral more. */
    private void wider(Wish.Put p, List<List<Move>> all) {
        Box box = state.house().boxes().values().stream()
                .filter(b -> b.devices().containsKey(p.device()))
                .findFirst()
                .orElse(null);
        DeviceKind kind = kinds.get(p.kind());
        if (box == null || kind == null || kind.findTerminal("neutral").isEmpty()) {
            return;
        }
        for (Cable c : state.house().cables().values()) {
            String a = c.ends().get(0).boxOrNull();
            String b = c.ends().get(1).boxOrNull();
            String other = box.name().equals(a) ? b : box.name().equals(b) ? a : null;
            Box from = other == null ? null : state.house().boxes().get(other);
            List<Wire> insulated = c.wires().stream().filter(w -> !isGround(w)).toList();
            if (from != null && !from.equals(box) && insulated.size() <= 3) {
                for (String neutral : neutrals(from)) {
                    List<Move> moves = new ArrayList<>(List.of(new Move.ChangeKind(p.device(), kind, Map.of())));
                    replace(c, insulated, from.name(), box.name(), moves);
                    String k = ((Move.AddCable) moves.get(1)).cable().name();
                    moves.add(new Move.Shift(from.name(), k + ".white", neutral));
                    moves.add(new Move.Shift(box.name(), p.device() + ".neutral", k + ".white"));
                    all.add(List.copyOf(moves));
                }
            }
        }
    }

    /** A cable in the place of one, with a white wire more; what the old one's wires were on, the new one's are. */
    private void replace(Cable was, List<Wire> insulated, String a, String b, List<Move> moves) {
        List<String> colours = new ArrayList<>(List.of("black", "red", "blue").subList(0, insulated.size()));
        Map<String, String> names = new LinkedHashMap<>();
        for (int i = 0; i < insulated.size(); i++) {
            names.put(insulated.get(i).name(), colours.get(i));
        }
        colours.add("white");
        was.wires().stream().filter(w -> isGround(w) && !w.metal()).findFirst().ifPresent(w -> {
            names.put(w.name(), "bare");
            colours.add("bare");
        });
        Cable is = NewCable.of(
                NewCable.name(state.house()),
                colours,
                insulated.isEmpty() ? null : insulated.get(0).size(),
                a,
                b);
        moves.add(new Move.AddCable(is));
        for (String in : List.of(a, b)) {
            names.forEach((old, now) -> {
                if (isJoined(in, was.name() + "." + old)) {
                    moves.add(new Move.Shift(in, is.name() + "." + now, was.name() + "." + old));
                }
            });
        }
        moves.add(new Move.RetireCable(was.name()));
    }

    private boolean isJoined(String in, String end) {
        Box b = state.house().boxes().get(in);
        return b != null
                && b.joints().stream()
                        .anyMatch(j -> j.members().size() > 1
                                && j.members().stream().anyMatch(r -> r.said().equals(end)));
    }

    private static boolean isGround(Wire w) {
        return w.metal() || w.colour().equals("bare") || w.colour().equals("green");
    }

    /** One wire of each neutral in a box. */
    private List<String> neutrals(Box box) {
        List<String> all = new ArrayList<>();
        for (Joint j : box.joints()) {
            j.members().stream()
                    .filter(r ->
                            r instanceof Ref.WireEnd w && does(w.cable() + "." + w.wire(), Conductor.NEUTRAL, null))
                    .findFirst()
                    .ifPresent(r -> all.add(r.said()));
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
                        .map(Wire::size)
                        .filter(Objects::nonNull)
                        .findFirst()
                        .orElse(null);
    }
}
