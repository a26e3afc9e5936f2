package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Worklist;
import org.splicebook.rewire.search.Protecting;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Way;

/**
 * Every place where a protective device might cover a demand: the breakers that feed it, alone or as one of two poles with the breaker
 * that shares its neutral; the receptacles on its way, what goes on from them left ahead or taken behind, all of it or one cable;
 * protective devices that are there and might take more behind them. What each covers is for the derivation to say.
 */
final class Candidates {
    private static final Set<String> PLAIN = Set.of("duplex-receptacle", "single-receptacle");
    private static final int PAIRS_OF_SPACES = 2;

    private final House house;
    private final Protecting protecting;
    private final Map<String, DeviceKind> kinds;
    private final Costs costs;
    private final Map<String, LoadPointWiring> points = new LinkedHashMap<>();
    private final List<Candidate> all = new ArrayList<>();
    private final Set<List<Move>> seen = new HashSet<>();

    private Candidates(House house, Protecting protecting, Map<String, DeviceKind> kinds, Costs costs) {
        this.house = house;
        this.protecting = protecting;
        this.kinds = kinds;
        this.costs = costs;
        protecting.wiring().loadPoints().forEach(l -> points.put(l.id(), l));
    }

    /** {@return every candidate, breakers first} */
    static List<Candidate> of(
            House house, Protecting protecting, Map<String, DeviceKind> kinds, Costs costs, List<Demand> demands) {
        Candidates c = new Candidates(house, protecting, kinds, costs);
        Map<String, Set<Protection>> breakers = new TreeMap<>();
        Map<String, Set<Protection>> boxes = new TreeMap<>();
        for (Demand d : demands) {
            LoadPointWiring l = Objects.requireNonNull(c.points.get(d.point()), d.point());
            add(boxes, l.box(), d.function());
            for (Feed f : l.feeds()) {
                add(breakers, f.breaker(), d.function());
                for (Way.Hop h : f.way().hops()) {
                    if (house.boxes().containsKey(h.box())) {
                        add(boxes, h.box(), d.function());
                    }
                }
            }
        }
        for (Panel p : house.panels().values()) {
            for (Breaker b : p.breakers().values()) {
                Set<Protection> its = breakers.get(p.name() + "." + b.key());
                if (its != null && b.type() == OvercurrentType.BREAKER) {
                    c.breaker(p, b, its);
                }
            }
        }
        boxes.forEach(
                (name, its) -> c.devices(Objects.requireNonNull(house.boxes().get(name)), its));
        return List.copyOf(c.all);
    }

    private static void add(Map<String, Set<Protection>> all, String name, Protection function) {
        all.computeIfAbsent(name, k -> EnumSet.noneOf(Protection.class)).add(function);
    }

    /** {@return each function by itself, and both} */
    private static List<Set<Protection>> some(Set<Protection> functions) {
        List<Set<Protection>> some = new ArrayList<>();
        functions.forEach(f -> some.add(Set.of(f)));
        if (functions.size() > 1) {
            some.add(Set.copyOf(functions));
        }
        return some;
    }

    private void breaker(Panel p, Breaker b, Set<Protection> functions) {
        for (Set<Protection> what : some(functions)) {
            breakers(p, protecting.breaker(p, List.of(b), b.spaces(), what));
            for (Breaker other : partners(p, b)) {
                List<Breaker> both = space(b) < space(other) ? List.of(b, other) : List.of(other, b);
                for (List<String> into : spaces(p, both)) {
                    breakers(p, protecting.breaker(p, both, into, what));
                }
            }
        }
    }

    /** Breakers of one pole, as large, whose returns go over the same neutral. */
    private List<Breaker> partners(Panel p, Breaker b) {
        if (space(b) == 0) {
            return List.of();
        }
        Set<String> poles = new TreeSet<>();
        String pole = p.name() + "." + b.spaces().get(0);
        for (NeutralIsland i : protecting.wiring().islands()) {
            if (i.poles().contains(pole)) {
                poles.addAll(i.poles());
            }
        }
        return p.breakers().values().stream()
                .filter(o -> !o.equals(b) && space(o) > 0 && o.type() == OvercurrentType.BREAKER)
                .filter(o -> poles.contains(p.name() + "." + o.spaces().get(0)))
                .filter(o -> Objects.equals(o.rating(), b.rating()))
                .toList();
    }

    /** The number of the one whole space that it takes; 0 where it takes another number of them. */
    private static int space(Breaker b) {
        return b.key().matches("[0-9]{1,3}") ? Integer.parseInt(b.key()) : 0;
    }

    /** Two spaces one above the other for both: where they are, else the first ones that are free but for them. */
    private static List<List<String>> spaces(Panel p, List<Breaker> both) {
        int first = space(both.get(0));
        int second = space(both.get(1));
        if (second == first + 2) {
            return List.of(List.of(both.get(0).key(), both.get(1).key()));
        }
        Set<String> taken = new TreeSet<>();
        p.breakers().values().stream()
                .filter(o -> !both.contains(o))
                .forEach(o -> o.spaces().forEach(s -> taken.add(s.replaceAll("[a-z]", ""))));
        List<List<String>> found = new ArrayList<>();
        int spaces = p.spaces() == null ? 0 : p.spaces();
        for (boolean stays : List.of(true, false)) {
            for (int s = 1; s + 2 <= spaces && found.size() < PAIRS_OF_SPACES; s++) {
                boolean one = s == first || s == second || s + 2 == first || s + 2 == second;
                List<String> into = List.of(String.valueOf(s), String.valueOf(s + 2));
                if (one == stays && into.stream().noneMatch(taken::contains)) {
                    found.add(into);
                }
            }
        }
        return found;
    }

    private void breakers(Panel p, List<List<Move>> ways) {
        for (List<Move> moves : ways) {
            Move.ChangeBreaker change = (Move.ChangeBreaker) moves.get(0);
            Breaker is = Objects.requireNonNull(change.is());
            Set<String> touched = new LinkedHashSet<>();
            change.was().forEach(k -> List.of(k.split("\\+")).forEach(s -> touched.add("space " + p.name() + "." + s)));
            is.spaces().forEach(s -> touched.add("space " + p.name() + "." + s));
            candidate(p.name() + "." + is.key(), said(change, is), moves, touched, costs.breaker(is));
        }
    }

    private static String said(Move.ChangeBreaker change, Breaker is) {
        String protects = Wanted.FUNCTIONS.stream()
                .filter(is.protects()::contains)
                .map(Protection::word)
                .collect(Collectors.joining(" and "));
        String was = String.join(" and ", change.was());
        return protects + " breaker"
                + (is.spaces().size() > 1 ? ", " + is.spaces().size() + " poles" : "")
                + (was.equals(is.key()) ? "" : ", in the place of " + was);
    }

    private void devices(Box box, Set<Protection> functions) {
        for (Device d : box.devices().values()) {
            if (PLAIN.contains(d.kind().name())) {
                for (Set<Protection> what : some(functions)) {
                    kinds.values().stream()
                            .filter(k -> isReceptacle(k, what))
                            .forEach(k -> protecting.receptacle(box, d, k).forEach(m -> device(box, d, m)));
                }
            } else if (d.kind().guard() != null
                    && d.kind().findTerminal("load.hot").isPresent()) {
                more(box, d, functions);
            }
        }
    }

    /** A device that takes a receptacle's place and does just that. */
    private static boolean isReceptacle(DeviceKind kind, Set<Protection> what) {
        return kind.family() == DeviceKind.Family.PROTECTIVE
                && !kind.loadPoints().isEmpty()
                && kind.guard() != null
                && kind.guard().functions().equals(what);
    }

    /** A protective device that is there: what goes on taken behind it, one that does more in its place, or both. */
    private void more(Box box, Device d, Set<Protection> functions) {
        List<Move> onward = protecting.onward(box, d).stream()
                .filter(m -> m instanceof Move.Shift s && !isOnLoad(box, d, s.end()))
                .toList();
        device(box, d, onward);
        Set<Protection> has =
                EnumSet.copyOf(Objects.requireNonNull(d.kind().guard()).functions());
        Set<Protection> wanted = EnumSet.copyOf(has);
        wanted.addAll(functions);
        if (!wanted.equals(has)) {
            kinds.values().stream().filter(k -> isReceptacle(k, wanted)).forEach(k -> {
                Move swap = new Move.ChangeKind(d.name(), k, Map.of());
                device(box, d, List.of(swap));
                List<Move> both = new ArrayList<>(List.of(swap));
                both.addAll(onward);
                if (both.size() > 1) {
                    candidate(box, d, both);
                }
            });
        }
    }

    private static boolean isOnLoad(Box box, Device d, String end) {
        return box.joints().stream()
                .filter(j -> j.members().stream().anyMatch(m -> m.said().equals(end)))
                .anyMatch(j -> j.members().stream().anyMatch(m -> m.said().startsWith(d.name() + ".load.")));
    }

    /** The change as it is, and with only one of the cables that go on taken behind. */
    private void device(Box box, Device d, List<Move> moves) {
        if (moves.isEmpty()) {
            return;
        }
        candidate(box, d, moves);
        Set<String> cables = new LinkedHashSet<>();
        moves.forEach(m -> cables.addAll(cable(m)));
        if (cables.size() > 1) {
            for (String one : cables) {
                candidate(
                        box,
                        d,
                        moves.stream()
                                .filter(m -> cable(m).isEmpty() || cable(m).contains(one))
                                .toList());
            }
        }
    }

    /** The cable of which a move takes a wire. */
    private static Set<String> cable(Move m) {
        return m instanceof Move.Shift s ? Set.of(s.end().substring(0, s.end().indexOf('.'))) : Set.of();
    }

    private void candidate(Box box, Device d, List<Move> moves) {
        int price = moves.get(0) instanceof Move.ChangeKind k
                ? costs.device(k.kind().name())
                : 0;
        candidate(d.name(), said(moves), moves, Set.of("device " + box.name() + "." + d.name()), price);
    }

    private static String said(List<Move> moves) {
        Set<String> cables = new LinkedHashSet<>();
        moves.forEach(m -> cables.addAll(cable(m)));
        String behind = cables.isEmpty() ? "" : String.join(" and ", cables) + " taken behind it";
        return moves.get(0) instanceof Move.ChangeKind k
                ? k.kind().title().toLowerCase(Locale.ROOT) + (behind.isEmpty() ? "" : ", " + behind)
                : "as it is, " + behind;
    }

    private void candidate(String at, String what, List<Move> moves, Set<String> alone, int price) {
        if (!seen.add(moves)) {
            return;
        }
        Set<String> touched = new LinkedHashSet<>(alone);
        for (Move m : moves) {
            if (m instanceof Move.Shift s) {
                touched.add("wire " + s.in() + ":" + s.end());
            }
        }
        Worklist work = Worklist.of(house, house, moves);
        long wires = moves.stream().filter(m -> m instanceof Move.Shift).count();
        all.add(new Candidate(
                at, what, moves, Set.copyOf(work.sites()), Math.toIntExact(price + costs.move() * wires), touched));
    }
}
