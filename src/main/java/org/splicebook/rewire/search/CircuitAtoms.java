package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;

/** A whole circuit on another panel: over wires that idle, spliced on in the old panel, or by a cable to its first box. */
final class CircuitAtoms {
    private final State state;
    private final House house;

    CircuitAtoms(State state) {
        this.state = state;
        this.house = state.house();
    }

    /** {@return a breaker by its name with the panel} */
    static @Nullable Breaker breaker(House house, String name) {
        int dot = name.indexOf('.');
        Panel p = dot < 0 ? null : house.panels().get(name.substring(0, dot));
        return p == null ? null : p.breakers().get(name.substring(dot + 1));
    }

    /** {@return a breaker like one, in other spaces} */
    static Breaker like(Breaker b, List<String> spaces) {
        return new Breaker(
                spaces,
                b.type(),
                b.rating(),
                b.protects(),
                b.neutralTerminal(),
                b.opensNeutral(),
                b.commonTrip(),
                b.position(),
                b.label(),
                Provenance.NONE);
    }

    /** {@return the first of so many free spaces one below the other; null where there are none} */
    static @Nullable String free(Panel p, int poles) {
        int spaces = p.spaces() == null ? 0 : p.spaces();
        return IntStream.rangeClosed(1, spaces - 2 * (poles - 1))
                .filter(s -> IntStream.range(0, poles).allMatch(i -> isFree(p, s + 2 * i)))
                .mapToObj(String::valueOf)
                .findFirst()
                .orElse(null);
    }

    private static boolean isFree(Panel p, int space) {
        String s = String.valueOf(space);
        return p.breakers().values().stream()
                .flatMap(b -> b.spaces().stream())
                .noneMatch(x -> x.replaceAll("[a-z]", "").equals(s));
    }

    /** {@return the ways to bring a breaker's circuit on a panel} */
    List<List<Move>> onto(Wish.Onto wish) {
        List<List<Move>> all = new ArrayList<>();
        Breaker b = breaker(house, wish.breaker());
        Panel from = house.panels()
                .get(wish.breaker().substring(0, Math.max(0, wish.breaker().indexOf('.'))));
        Panel to = house.panels().get(wish.panel());
        String space = b == null || to == null ? null : free(to, b.spaces().size());
        if (b == null || from == null || to == null || space == null || b.type() != OvercurrentType.BREAKER) {
            return all;
        }
        int first = Integer.parseInt(space);
        List<String> spaces = IntStream.range(0, b.spaces().size())
                .mapToObj(i -> String.valueOf(first + 2 * i))
                .toList();
        Move comes = new Move.ChangeBreaker(to.name(), List.of(), like(b, spaces));
        Move goes = new Move.ChangeBreaker(from.name(), List.of(b.key()), null);
        Map<String, String> posts = posts(b, spaces);
        for (Cable home : homeRuns(from, b)) {
            Map<String, String> landed = landed(from, home, posts);
            idle(home, from, to, landed, comes, goes, all);
            spliced(home, from, to, landed, comes, goes, all);
            again(home, from, to, landed, comes, goes, all);
        }
        return all;
    }

    /** What a terminal of the old panel is in the new one. */
    private static Map<String, String> posts(Breaker b, List<String> spaces) {
        Map<String, String> all = new LinkedHashMap<>();
        for (int i = 0; i < spaces.size(); i++) {
            all.put(b.spaces().get(i), spaces.get(i));
        }
        String neutral = b.neutralTerminal() ? spaces.get(0) + ".neutral" : "n";
        all.put("n", neutral);
        all.put(b.spaces().get(0) + ".neutral", neutral);
        all.put("g", "g");
        return all;
    }

    /** The cables whose wires land on a breaker. */
    private List<Cable> homeRuns(Panel p, Breaker b) {
        return p.joints().stream()
                .filter(j -> j.members().stream()
                        .anyMatch(r ->
                                r instanceof Ref.PanelTerminal t && b.spaces().contains(t.terminal())))
                .flatMap(j -> j.members().stream())
                .filter(r -> r instanceof Ref.WireEnd)
                .map(r -> house.cables().get(((Ref.WireEnd) r).cable()))
                .filter(Objects::nonNull)
                .distinct()
                .toList();
    }

    /** Where each wire of a cable lands, in words of the new panel. */
    private static Map<String, String> landed(Panel p, Cable c, Map<String, String> posts) {
        Map<String, String> all = new LinkedHashMap<>();
        for (Joint j : p.joints()) {
            String post = j.members().stream()
                    .filter(r -> r instanceof Ref.PanelTerminal)
                    .map(r -> posts.get(r.said()))
                    .filter(Objects::nonNull)
                    .findFirst()
                    .orElse(null);
            if (post != null) {
                // In a neutral bar that is ground too the bare wire goes where it is ground alone.
                j.members().stream()
                        .filter(r -> r instanceof Ref.WireEnd w && w.cable().equals(c.name()))
                        .forEach(r ->
                                all.put(((Ref.WireEnd) r).wire(), isBare(c, ((Ref.WireEnd) r).wire()) ? "g" : post));
            }
        }
        return all;
    }

    private static boolean isBare(Cable c, String wire) {
        return c.wires().stream()
                .anyMatch(w -> w.name().equals(wire)
                        && (w.metal() || w.colour().equals("bare") || w.colour().equals("green")));
    }

    /** Over wires of a cable that lies between the panel and the circuit's first box and does nothing. */
    private void idle(
            Cable home, Panel from, Panel to, Map<String, String> landed, Move comes, Move goes, List<List<Move>> all) {
        Box box = other(home, from.name());
        if (box == null) {
            return;
        }
        for (Cable c : house.cables().values()) {
            if (!joins(c, to.name(), box.name()) || c.equals(home)) {
                continue;
            }
            List<Wire> free = new ArrayList<>(c.wires().stream()
                    .filter(w -> !isBare(c, w.name()) && isIdle(c, w))
                    .toList());
            List<Move> moves = new ArrayList<>(List.of(comes));
            boolean isEnough = true;
            for (Map.Entry<String, String> e : landed.entrySet()) {
                if (isBare(home, e.getKey())) {
                    continue;
                }
                // A white wire for the neutral, if one is there.
                boolean isNeutral = e.getValue().endsWith("n") || e.getValue().endsWith("neutral");
                Wire w = free.stream()
                        .filter(x -> x.colour().equals("white") == isNeutral)
                        .findFirst()
                        .orElse(free.isEmpty() ? null : free.get(0));
                isEnough &= w != null;
                if (w != null) {
                    free.remove(w);
                    moves.add(new Move.Shift(to.name(), c.name() + "." + w.name(), e.getValue()));
                    moves.add(new Move.Shift(box.name(), c.name() + "." + w.name(), home.name() + "." + e.getKey()));
                }
            }
            if (isEnough) {
                moves.add(new Move.RetireCable(home.name()));
                moves.add(goes);
                all.add(List.copyOf(moves));
            }
        }
    }

    /** A cable from panel to panel, spliced to the home run where that landed. */
    private void spliced(
            Cable home, Panel from, Panel to, Map<String, String> landed, Move comes, Move goes, List<List<Move>> all) {
        Cable made = like(home, to.name(), from.name());
        List<Move> moves = new ArrayList<>(List.of(new Move.AddCable(made), comes));
        landed.forEach((wire, post) -> {
            moves.add(new Move.Shift(to.name(), made.name() + "." + wire, post));
            if (isBare(home, wire)) {
                moves.add(new Move.Shift(from.name(), made.name() + "." + wire, "g"));
            } else {
                moves.add(new Move.Splice(
                        from.name(), List.of(home.name() + "." + wire, made.name() + "." + wire), null));
            }
        });
        moves.add(goes);
        all.add(List.copyOf(moves));
    }

    /** A cable from the panel to the circuit's first box in the place of the home run. */
    private void again(
            Cable home, Panel from, Panel to, Map<String, String> landed, Move comes, Move goes, List<List<Move>> all) {
        Box box = other(home, from.name());
        if (box == null) {
            return;
        }
        Cable made = like(home, to.name(), box.name());
        List<Move> moves = new ArrayList<>(List.of(new Move.AddCable(made), comes));
        landed.forEach((wire, post) -> {
            moves.add(new Move.Shift(to.name(), made.name() + "." + wire, post));
            moves.add(new Move.Shift(box.name(), made.name() + "." + wire, home.name() + "." + wire));
        });
        moves.add(new Move.RetireCable(home.name()));
        moves.add(goes);
        all.add(List.copyOf(moves));
    }

    private Cable like(Cable c, String a, String b) {
        return new Cable(
                NewCable.name(house),
                c.kind(),
                null,
                c.wires().stream().filter(w -> !w.metal()).toList(),
                List.of(new CableEnd.At(a), new CableEnd.At(b)),
                List.of(),
                null,
                Provenance.NONE);
    }

    private @Nullable Box other(Cable c, String panel) {
        String a = c.ends().get(0).boxOrNull();
        String b = c.ends().get(1).boxOrNull();
        String far = panel.equals(a) ? b : panel.equals(b) ? a : null;
        return far == null ? null : house.boxes().get(far);
    }

    private static boolean joins(Cable c, String a, String b) {
        String x = c.ends().get(0).boxOrNull();
        String y = c.ends().get(1).boxOrNull();
        return (a.equals(x) && b.equals(y)) || (a.equals(y) && b.equals(x));
    }

    private boolean isIdle(Cable c, Wire w) {
        String wire = c.name() + "." + w.name();
        return state.wiring().wires().stream()
                .noneMatch(u -> u.wire().equals(wire) && !u.uses().isEmpty());
    }
}
