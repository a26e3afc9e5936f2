package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** Changes of breakers and devices: ties, poles together, protective ones in the place of plain ones, tabs, line and load. */
final class PartAtoms {
    private static final List<String> PROTECTIVE =
            List.of("ground-fault-receptacle", "arc-fault-receptacle", "dual-function-receptacle");

    private final State state;
    private final Map<String, DeviceKind> kinds;

    PartAtoms(State state, Map<String, DeviceKind> kinds) {
        this.state = state;
        this.kinds = kinds;
    }

    /** {@return changes at the breakers of a panel that feed something concerned: names as {@code main.1}} */
    List<List<Move>> breakers(Set<String> concerned) {
        List<List<Move>> all = new ArrayList<>();
        for (Panel p : state.house().panels().values()) {
            // A fuse takes no handle tie and has no protective kind.
            List<Breaker> mine = p.breakers().values().stream()
                    .filter(b -> b.type() == OvercurrentType.BREAKER)
                    .filter(b -> concerned.contains(p.name() + "." + b.key()))
                    .toList();
            for (Breaker a : mine) {
                for (Set<Protection> what : List.of(
                        Set.of(Protection.GROUND_FAULT),
                        Set.of(Protection.ARC_FAULT),
                        Set.of(Protection.GROUND_FAULT, Protection.ARC_FAULT))) {
                    protect(p, List.of(a), a.spaces(), what, all);
                }
                for (Breaker b : mine) {
                    if (a.spaces().size() == 1 && b.spaces().size() == 1 && !a.equals(b)) {
                        pair(p, a, b, all);
                    }
                }
            }
        }
        return all;
    }

    private void pair(Panel p, Breaker a, Breaker b, List<List<Move>> all) {
        int x = number(a);
        int y = number(b);
        if (x <= 0 || y <= 0 || !java.util.Objects.equals(a.rating(), b.rating())) {
            return;
        }
        if (y == x + 2) {
            List<String> both = List.of(a.key(), b.key());
            all.add(List.of(new Move.Tie(p.name(), both, true)));
            protect(p, List.of(a, b), both, Set.of(), all);
            protect(p, List.of(a, b), both, Set.of(Protection.GROUND_FAULT), all);
            protect(p, List.of(a, b), both, Set.of(Protection.ARC_FAULT), all);
        } else {
            // A pair of spaces one above the other, for two breakers that are not.
            for (int s = 1; s + 2 <= spaces(p); s++) {
                List<String> into = List.of(String.valueOf(s), String.valueOf(s + 2));
                boolean isFree = into.stream()
                        .allMatch(i -> i.equals(a.key())
                                || i.equals(b.key())
                                || p.breakers().values().stream()
                                        .noneMatch(o -> o.spaces().stream()
                                                .anyMatch(q -> q.replaceAll("[a-z]", "")
                                                        .equals(i))));
                if (isFree) {
                    protect(p, List.of(a, b), into, Set.of(), all);
                }
            }
        }
    }

    private static int spaces(Panel p) {
        return p.spaces() == null ? 0 : p.spaces();
    }

    private static int number(Breaker b) {
        return b.key().matches("[0-9]{1,3}") ? Integer.parseInt(b.key()) : 0;
    }

    /** Another breaker in the place of some; a protective one takes the neutrals of its circuits on its own terminal. */
    void protect(Panel p, List<Breaker> was, List<String> spaces, Set<Protection> what, List<List<Move>> all) {
        Breaker first = was.get(0);
        Set<Protection> both = EnumSet.noneOf(Protection.class);
        was.forEach(b -> both.addAll(b.protects()));
        if (!what.isEmpty() && both.containsAll(what)) {
            return;
        }
        both.addAll(what);
        boolean isPlain = both.isEmpty();
        Breaker is = new Breaker(
                spaces,
                first.type(),
                first.rating(),
                both,
                !isPlain,
                null,
                true,
                first.position(),
                was.stream()
                        .map(Breaker::label)
                        .filter(java.util.Objects::nonNull)
                        .distinct()
                        .reduce((x, y) -> x + "; " + y)
                        .orElse(null),
                Provenance.NONE);
        List<Move> moves = new ArrayList<>();
        moves.add(
                new Move.ChangeBreaker(p.name(), was.stream().map(Breaker::key).toList(), is));
        if (!isPlain) {
            Set<String> poles = new java.util.HashSet<>();
            was.forEach(b -> b.spaces().forEach(s -> poles.add(p.name() + "." + s)));
            for (NeutralIsland island : state.wiring().islands()) {
                if (island.poles().stream().anyMatch(poles::contains)) {
                    for (String landing : island.landings()) {
                        if (landing.startsWith(p.name() + ":")) {
                            moves.add(new Move.Shift(
                                    p.name(), landing.substring(p.name().length() + 1), spaces.get(0) + ".neutral"));
                        }
                    }
                }
            }
        }
        all.add(List.copyOf(moves));
    }

    /** {@return changes at the devices of a box} */
    List<List<Move>> devices(Box box) {
        List<List<Move>> all = new ArrayList<>();
        for (Device d : box.devices().values()) {
            if (d.kind().terminals().stream().anyMatch(t -> t.name().equals("load.hot"))) {
                all.add(List.of(new Move.SwapLineAndLoad(d.name())));
            }
            d.kind().tabs().forEach(t -> {
                all.add(List.of(new Move.SetTab(d.name(), t.name(), true)));
                all.add(List.of(new Move.SetTab(d.name(), t.name(), false)));
            });
            for (Joint j : box.joints()) {
                if (j.members().size() > 2) {
                    j.members().stream()
                            .filter(r -> r instanceof Ref.DeviceTerminal t
                                    && t.device().equals(d.name()))
                            .forEach(r -> all.add(List.of(new Move.Pigtail(box.name(), r.said()))));
                }
            }
            if (d.kind().name().equals("duplex-receptacle") || d.kind().name().equals("single-receptacle")) {
                PROTECTIVE.stream()
                        .filter(kinds::containsKey)
                        .forEach(k -> protective(box, d, java.util.Objects.requireNonNull(kinds.get(k)), all));
            }
        }
        return all;
    }

    /** In the place of a plain receptacle: with what goes on left ahead of it, or taken behind it. */
    void protective(Box box, Device d, DeviceKind kind, List<List<Move>> all) {
        boolean isDuplex = d.kind().name().equals("duplex-receptacle");
        Map<String, String> terminals = new TreeMap<>();
        terminals.put(isDuplex ? "top.hot" : "hot", "line.hot");
        terminals.put(isDuplex ? "top.neutral" : "neutral", "line.neutral");
        if (isDuplex) {
            terminals.put("bottom.hot", "load.hot");
            terminals.put("bottom.neutral", "load.neutral");
        }
        List<Move> ahead = List.of(new Move.ChangeKind(d.name(), kind, terminals));
        all.add(ahead);
        if (isDuplex) {
            Map<String, String> reversed = new TreeMap<>();
            reversed.put("bottom.hot", "line.hot");
            reversed.put("bottom.neutral", "line.neutral");
            reversed.put("top.hot", "load.hot");
            reversed.put("top.neutral", "load.neutral");
            all.add(List.of(new Move.ChangeKind(d.name(), kind, reversed)));
        }
        List<Move> behind = new ArrayList<>(ahead);
        onward(box, d, "hot", behind);
        onward(box, d, "neutral", behind);
        if (behind.size() > ahead.size()) {
            all.add(List.copyOf(behind));
        }
    }

    /** Wires on the same joint that do not come from the breaker's side go to the load side. */
    void onward(Box box, Device d, String what, List<Move> moves) {
        for (Joint j : box.joints()) {
            boolean isIts = j.members().stream()
                    .anyMatch(r -> r instanceof Ref.DeviceTerminal t
                            && t.device().equals(d.name())
                            && t.terminal().endsWith(what));
            if (isIts) {
                Set<String> incoming = incoming(d.name());
                j.members().stream()
                        .filter(r -> r instanceof Ref.WireEnd w && !incoming.contains(w.cable() + "." + w.wire()))
                        .forEach(r -> moves.add(new Move.Shift(box.name(), r.said(), d.name() + ".load." + what)));
            }
        }
    }

    /** The wires over which a device is fed and returns. */
    private Set<String> incoming(String device) {
        Set<String> all = new java.util.HashSet<>();
        for (LoadPointWiring l : state.wiring().loadPoints()) {
            if (l.device().equals(device)) {
                l.feeds().forEach(f -> wires(f.way(), all));
                l.returns().forEach(r -> wires(r.way(), all));
            }
        }
        return all;
    }

    private static void wires(Way way, Set<String> all) {
        way.hops().stream()
                .filter(h -> h.thing().kind() == ThingKind.WIRE)
                .forEach(h -> all.add(h.thing().name()));
    }
}
