package org.splicebook.ask;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;

/** Does this box hold a hot that is always live, that same circuit's neutral, and a ground; else where is the nearest? */
final class AlwaysHot {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "always-hot",
                    "Does {box} hold a hot that is always live, that circuit's neutral, and a ground? Else where is the nearest?")
            .with("box", "a box, for example dining-door")
            .columns("circuit", "hot", "neutral", "ground", "missing", "away")
            .by(asked -> new AlwaysHot(asked).answer());

    private final Asked asked;
    private final House house;
    private final String box;
    private final Map<String, WireUse> uses;

    /** What one circuit has in one box. */
    private record Found(String box, String breaker, List<String> hot, List<String> neutral, List<String> ground) {
        List<String> missing() {
            List<String> all = new ArrayList<>();
            if (hot.isEmpty()) {
                all.add("hot");
            }
            if (neutral.isEmpty()) {
                all.add("neutral");
            }
            if (ground.isEmpty()) {
                all.add("ground");
            }
            return all;
        }
    }

    private AlwaysHot(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.box = asked.value("box");
        this.uses = asked.wiring().wires().stream().collect(Collectors.toMap(WireUse::wire, u -> u));
    }

    private Answer answer() {
        List<Row> rows = new ArrayList<>();
        List<Found> here = in(box);
        here.forEach(f -> rows.add(row(f, here(f), "")));
        if (here.isEmpty()) {
            rows.add(row(
                    new Found(box, "", List.of(), List.of(), grounds(box)),
                    isWhole(box) ? Row.Status.EXCLUDED : Row.Status.POSSIBLE,
                    ""));
        }
        boolean isHere = here.stream().anyMatch(f -> f.missing().isEmpty());
        String outcome;
        if (isHere) {
            outcome = box + " holds all three, of "
                    + here.stream()
                            .filter(f -> f.missing().isEmpty())
                            .map(f -> Breakers.said(house, f.breaker()))
                            .collect(Collectors.joining(" and of "))
                    + ".";
        } else {
            outcome = lacking(here) + " " + nearest(rows);
        }
        return asked.answer(outcome, rows, notProven(), List.of());
    }

    private String lacking(List<Found> here) {
        String unless = isWhole(box) ? "." : ", as far as is recorded: not every cable and joint in it is.";
        if (here.isEmpty()) {
            return "No hot that is always live is shown in " + box + unless;
        }
        return here.stream()
                        .map(f -> box + " has no " + String.join(" and no ", f.missing()) + " for "
                                + Breakers.said(house, f.breaker()))
                        .collect(Collectors.joining("; "))
                + unless;
    }

    /** Looks box by box along the cables, and adds what it finds first as a row. */
    private String nearest(List<Row> rows) {
        Map<String, List<Cable>> cablesTo = new HashMap<>();
        cablesTo.put(box, List.of());
        Deque<String> queue = new ArrayDeque<>(List.of(box));
        while (!queue.isEmpty()) {
            String at = queue.remove();
            List<Cable> over = Objects.requireNonNull(cablesTo.get(at));
            List<Found> whole = at.equals(box) || !house.boxes().containsKey(at)
                    ? List.of()
                    : in(at).stream().filter(f -> f.missing().isEmpty()).toList();
            if (!whole.isEmpty()) {
                String away = over.size()
                        + (over.size() == 1 ? " cable away, over " : " cables away, over ")
                        + over.stream().map(Cable::name).collect(Collectors.joining(", "));
                whole.forEach(f -> rows.add(row(f, Row.Status.SHOWN, away)));
                return "The nearest box that holds all three is " + at + ", " + away + ".";
            }
            for (Cable c : house.cables().values()) {
                List<String> ends = c.ends().stream()
                        .map(e -> e.boxOrNull())
                        .filter(Objects::nonNull)
                        .map(String::valueOf)
                        .toList();
                if (ends.contains(at)) {
                    List<Cable> further = new ArrayList<>(over);
                    further.add(c);
                    // Past a panel it is another circuit's cable.
                    ends.stream()
                            .filter(house.boxes()::containsKey)
                            .filter(e -> cablesTo.putIfAbsent(e, further) == null)
                            .forEach(queue::add);
                }
            }
        }
        return "No box that its cables lead to, short of the panel, is shown to hold all three" + besides() + ".";
    }

    /** Boxes of the same place on other circuits. */
    private String besides() {
        Box own = house.boxes().get(box);
        List<String> near = own == null || own.place() == null
                ? List.of()
                : house.boxes().values().stream()
                        .filter(b -> own.place().equals(b.place()))
                        .filter(b ->
                                in(b.name()).stream().anyMatch(f -> f.missing().isEmpty()))
                        .map(Box::name)
                        .toList();
        return near.isEmpty()
                ? ""
                : "; in the same place " + String.join(", ", near) + (near.size() == 1 ? " does" : " do");
    }

    private List<Found> in(String at) {
        Map<String, List<String>> hots = new TreeMap<>();
        for (BoxWires.Here w : ending(at)) {
            for (WireUse.Use u : of(w.name())) {
                if (u.conductor() == Conductor.HOT && u.sureness() == Sureness.MUST && u.pole() != null) {
                    hots.computeIfAbsent(u.pole(), k -> new ArrayList<>()).add(w.name());
                }
            }
        }
        List<Found> found = new ArrayList<>();
        hots.forEach((pole, hot) ->
                found.add(new Found(at, Breakers.ofPole(house, pole), hot, neutrals(at, pole), grounds(at))));
        return found;
    }

    private List<BoxWires.Here> ending(String at) {
        return BoxWires.of(house, at).stream()
                .filter(w -> w.presence() == BoxWires.Presence.ENDS)
                .toList();
    }

    private List<WireUse.Use> of(String wire) {
        WireUse use = uses.get(wire);
        return use == null ? List.of() : use.uses();
    }

    private List<String> neutrals(String at, String pole) {
        Set<String> own = new HashSet<>();
        asked.wiring().islands().stream().filter(i -> returnsProperly(i, pole)).forEach(i -> own.addAll(i.wires()));
        return ending(at).stream()
                .map(BoxWires.Here::name)
                .filter(own::contains)
                .filter(w -> of(w).stream()
                        .anyMatch(u -> u.conductor() == Conductor.NEUTRAL && u.sureness() != Sureness.MAY))
                .toList();
    }

    /** A neutral is a circuit's own where some load of it returns there and is not borrowing it. */
    private boolean returnsProperly(NeutralIsland island, String pole) {
        Set<String> astray = asked.wiring().crossings().stream()
                .filter(c -> c.kind() == CrossingKind.BORROWED || c.kind() == CrossingKind.RETURN_IN_ANOTHER_CABLE)
                .flatMap((Crossing c) -> c.loadPoints().stream())
                .collect(Collectors.toSet());
        return asked.wiring().loadPoints().stream()
                .filter(l -> island.loadPoints().contains(l.id()) && !astray.contains(l.id()))
                .flatMap((LoadPointWiring l) -> l.feeds().stream())
                .anyMatch(f -> f.pole().equals(pole) && f.sureness() != Sureness.MAY);
    }

    private List<String> grounds(String at) {
        return ending(at).stream()
                .map(BoxWires.Here::name)
                .filter(w ->
                        of(w).stream().anyMatch(u -> u.conductor() == Conductor.GROUND && u.sureness() != Sureness.MAY))
                .toList();
    }

    private Row.Status here(Found f) {
        return f.missing().isEmpty() ? Row.Status.SHOWN : isWhole(f.box()) ? Row.Status.EXCLUDED : Row.Status.POSSIBLE;
    }

    private boolean isWhole(String at) {
        Box b = house.boxes().get(at);
        return b == null || (house.isComplete(b, Complete.CABLES) && house.isComplete(b, Complete.JOINTS));
    }

    private Row row(Found f, Row.Status status, String away) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("circuit", f.breaker().isEmpty() ? "" : Breakers.said(house, f.breaker()));
        columns.put("hot", f.hot());
        columns.put("neutral", f.neutral());
        columns.put("ground", f.ground());
        columns.put("missing", f.missing());
        columns.put("away", away);
        List<Reason> ways = ways(f);
        Box b = house.boxes().get(f.box());
        Basis basis = b == null ? house.basis() : b.about().basisOr(house.basis());
        return new Row(f.box(), status, basis, columns, Reason.say(ways), ways);
    }

    /** The ways of some load point that pass the wires found. */
    private List<Reason> ways(Found f) {
        List<Reason> ways = new ArrayList<>();
        for (LoadPointWiring l : asked.wiring().loadPoints()) {
            l.feeds().stream()
                    .filter(x -> ways.isEmpty() && Passing.any(x.way(), f.hot()))
                    .forEach(x -> ways.add(Passing.from(x.way(), f.hot(), house)));
        }
        for (LoadPointWiring l : asked.wiring().loadPoints()) {
            l.returns().stream()
                    .filter(x -> ways.size() == 1 && Passing.any(x.way(), f.neutral()))
                    .forEach(x -> ways.add(Passing.from(x.way(), f.neutral(), house)));
        }
        return ways;
    }

    private List<String> notProven() {
        List<String> all = new ArrayList<>();
        all.add("That there is room in the box for what is to go in.");
        boolean armoured = ending(box).stream().anyMatch(w -> w.wire().metal());
        if (armoured) {
            all.add("That the armour here is a ground: old armoured cable without a bonding strip is none. Test it.");
        }
        return all;
    }
}
