package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.WireUse;

/** Moves of the wires that are there: shifted, spliced apart, capped, carried on over idle wires. */
final class WireAtoms {
    /** Joints of more members are not split in all ways. */
    private static final int MEMBERS = 6;

    /** How many idle wires one after the other may carry a neutral or a hot on. */
    private static final int HOPS = 3;

    private final State state;
    private final Map<String, Set<Conductor>> uses = new HashMap<>();
    private final Map<String, List<Idle>> idle = new LinkedHashMap<>();

    /** A wire that does nothing, from one box to another. */
    private record Idle(String here, String far, String there) {}

    WireAtoms(State state) {
        this.state = state;
        for (WireUse w : state.wiring().wires()) {
            Set<Conductor> all = EnumSet.noneOf(Conductor.class);
            w.uses().forEach(u -> all.add(u.conductor()));
            uses.put(w.wire(), all);
        }
        state.house().cables().values().forEach(c -> {
            String a = c.ends().get(0).boxOrNull();
            String b = c.ends().get(1).boxOrNull();
            if (a != null && b != null && !a.equals(b)) {
                c.wires().stream()
                        .filter(w -> !w.metal() && !w.colour().equals("bare"))
                        .map(w -> c.name() + "." + w.name())
                        .filter(w -> uses.getOrDefault(w, Set.of()).isEmpty() || !isJoined(a, w) || !isJoined(b, w))
                        .forEach(w -> {
                            idle.computeIfAbsent(a, k -> new ArrayList<>()).add(new Idle(w, b, w));
                            idle.computeIfAbsent(b, k -> new ArrayList<>()).add(new Idle(w, a, w));
                        });
            }
        });
    }

    private boolean isJoined(String in, String end) {
        return joints(in).stream()
                .anyMatch(j -> j.members().size() > 1
                        && j.members().stream().anyMatch(r -> r.said().equals(end)));
    }

    private List<Joint> joints(String in) {
        var box = state.house().boxes().get(in);
        var panel = state.house().panels().get(in);
        return box != null ? box.joints() : panel != null ? panel.joints() : List.of();
    }

    /** {@return what the wires of a joint do; of a device's terminal alone, what it is for} */
    private Set<Conductor> does(Joint j) {
        Set<Conductor> all = EnumSet.noneOf(Conductor.class);
        j.members().forEach(r -> all.addAll(does(r)));
        return all;
    }

    private Set<Conductor> does(Ref r) {
        if (r instanceof Ref.WireEnd w) {
            return uses.getOrDefault(w.cable() + "." + w.wire(), Set.of());
        }
        if (r instanceof Ref.PanelTerminal t) {
            return t.terminal().equals("n") || t.terminal().endsWith(".neutral")
                    ? Set.of(Conductor.NEUTRAL)
                    : t.terminal().equals("g") ? Set.of(Conductor.GROUND) : Set.of(Conductor.HOT);
        }
        if (r instanceof Ref.DeviceTerminal t) {
            DeviceKind.Role role = state.house().boxes().values().stream()
                    .flatMap(b -> b.devices().values().stream())
                    .filter(d -> d.name().equals(t.device()))
                    .flatMap(d -> d.kind().terminals().stream())
                    .filter(x -> x.name().equals(t.terminal()))
                    .map(DeviceKind.Terminal::role)
                    .findFirst()
                    .orElse(DeviceKind.Role.ANY);
            return switch (role) {
                case HOT, SWITCH, TRAVELER -> Set.of(Conductor.HOT);
                case NEUTRAL -> Set.of(Conductor.NEUTRAL);
                case GROUND, METAL -> Set.of(Conductor.GROUND);
                default -> Set.of();
            };
        }
        return Set.of(Conductor.GROUND);
    }

    private static boolean isMovable(Ref r) {
        return r instanceof Ref.WireEnd || r instanceof Ref.DeviceTerminal;
    }

    private static boolean meet(Set<Conductor> a, Set<Conductor> b) {
        return a.stream().anyMatch(b::contains) && !a.contains(Conductor.GROUND);
    }

    /** {@return the changes that hands could make in one box or panel, and from it over idle wires} */
    List<List<Move>> in(String box) {
        List<List<Move>> all = new ArrayList<>();
        List<Joint> joints = joints(box);
        for (Joint from : joints) {
            for (Ref end : from.members()) {
                if (isMovable(end) && !does(end).contains(Conductor.GROUND)) {
                    for (Joint to : joints) {
                        if (!to.equals(from) && meet(does(end), does(to))) {
                            all.add(List.of(new Move.Shift(
                                    box, end.said(), to.members().get(0).said())));
                        }
                    }
                    routes(box, end, all);
                    if (from.members().size() > 1) {
                        all.add(List.of(new Move.Cap(box, end.said())));
                    }
                }
            }
            split(box, from, all);
        }
        loose(box, all);
        return all;
    }

    private void split(String box, Joint j, List<List<Move>> all) {
        List<Ref> movable = j.members().stream().filter(WireAtoms::isMovable).toList();
        if (movable.size() != j.members().size() || movable.size() < 4 || movable.size() > MEMBERS) {
            return;
        }
        for (int mask = 1; mask < 1 << (movable.size() - 1); mask++) {
            int m = mask;
            List<String> part = new ArrayList<>();
            for (int i = 0; i < movable.size(); i++) {
                if ((m >> i & 1) == 1) {
                    part.add(movable.get(i).said());
                }
            }
            if (part.size() > 1 && part.size() < movable.size() - 1) {
                all.add(List.of(new Move.Splice(box, part, null)));
            }
        }
    }

    /** {@return the ways over idle wires from a terminal to a neutral in another box} */
    List<List<Move>> routesOfNeutral(String box, String terminal) {
        List<List<Move>> all = new ArrayList<>();
        follow(box, terminal, Set.of(Conductor.NEUTRAL), List.of(), Set.of(box), all);
        return all;
    }

    /** Ends that no joint names: each to every joint of its box that is not ground. */
    private void loose(String box, List<List<Move>> all) {
        for (Cable c : state.house().cables().values()) {
            boolean isOnce =
                    !Objects.equals(c.ends().get(0).boxOrNull(), c.ends().get(1).boxOrNull());
            boolean isHere = c.ends().stream().anyMatch(e -> box.equals(e.boxOrNull()));
            for (Wire w : isHere && isOnce ? c.wires() : List.<Wire>of()) {
                String end = c.name() + "." + w.name();
                boolean isBare = w.metal() || w.colour().equals("bare");
                if (!isBare && !isJoined(box, end)) {
                    for (Joint j : joints(box)) {
                        boolean isItself = j.members().size() == 1
                                && j.members().get(0).said().equals(end);
                        if (!isItself && !does(j).contains(Conductor.GROUND)) {
                            all.add(List.of(
                                    new Move.Shift(box, end, j.members().get(0).said())));
                        }
                    }
                }
            }
        }
    }

    /** The end goes over wires that do nothing to a joint in another box that carries what it needs. */
    private void routes(String box, Ref end, List<List<Move>> all) {
        Set<Conductor> needs = does(end);
        if (needs.size() == 1) {
            follow(box, end.said(), needs, List.of(), Set.of(box), all);
        }
    }

    private void follow(
            String box, String end, Set<Conductor> needs, List<Move> done, Set<String> seen, List<List<Move>> all) {
        if (done.size() > HOPS) {
            return;
        }
        for (Idle i : idle.getOrDefault(box, List.of())) {
            if (seen.contains(i.far) || i.here.equals(end)) {
                continue;
            }
            List<Move> moves = new ArrayList<>(done);
            moves.add(new Move.Shift(box, end, i.here));
            if (isJoined(i.far, i.there)) {
                all.add(List.copyOf(moves));
            }
            if (state.house().panels().containsKey(i.far) && needs.contains(Conductor.NEUTRAL)) {
                all.add(plus(moves, new Move.Shift(i.far, i.there, "n")));
            }
            for (Joint j : joints(i.far)) {
                boolean isIt = j.members().stream().anyMatch(r -> r.said().equals(i.there));
                if (!isIt && !state.house().panels().containsKey(i.far) && does(j).equals(needs)) {
                    all.add(plus(
                            moves,
                            new Move.Shift(i.far, i.there, j.members().get(0).said())));
                }
            }
            Set<String> on = new java.util.HashSet<>(seen);
            on.add(i.far);
            follow(i.far, i.there, needs, moves, on, all);
        }
    }

    static List<Move> plus(List<Move> moves, Move... more) {
        List<Move> all = new ArrayList<>(moves);
        all.addAll(List.of(more));
        return List.copyOf(all);
    }
}
