package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Wire;
import org.splicebook.wiring.PanelLegs;
import org.splicebook.wiring.Wiring;

/**
 * The moves that make a further panel: it and its feeder, its source where it is backed up, then set by set a raceway in which hots and
 * neutrals of whole circuits are led over, spliced in today's panel to the wires that landed there.
 */
final class SubpanelMoves {
    private static final List<String> COLOURS = List.of("black", "red", "blue", "orange");

    private final Wiring wiring;
    private final House house;
    private final Panel panel;
    private final SubpanelWanted wanted;
    private final WireLimits limits;
    private final FurtherPanel further;
    private final List<Move> moves = new ArrayList<>();

    /**
     * Moves for a choice.
     *
     * @param feeder amperes of the feeder's breaker
     */
    SubpanelMoves(Wiring wiring, Panel panel, SubpanelWanted wanted, WireLimits limits, int feeder) {
        this.wiring = wiring;
        this.house = wiring.house();
        this.panel = panel;
        this.wanted = wanted;
        this.limits = limits;
        this.further = new FurtherPanel(house, panel, wanted, limits, feeder);
    }

    /** What can be written: moves, or why there are none. */
    record Written(List<Move> moves, String whyNot) {
        Written {
            moves = List.copyOf(moves);
        }

        static Written none(String why) {
            return new Written(List.of(), why);
        }
    }

    /**
     * {@return the moves that lead these sets over, or why they cannot be written}
     *
     * @param legs the leg of each circuit of one pole in the further panel, by its name
     * @param staying circuits that stay and may change their space on their leg
     */
    Written write(Collection<Movable> sets, Map<String, Integer> legs, List<Circuit> staying) {
        List<Circuit> circuits =
                sets.stream().flatMap(m -> m.circuits().stream()).toList();
        String whyNot = whyNot(circuits);
        if (!whyNot.isEmpty()) {
            return Written.none(whyNot);
        }
        Set<String> gone = circuits.stream().flatMap(c -> c.was().stream()).collect(Collectors.toSet());
        int poles = wanted.hasTwoLegs() ? 2 : 1;
        Set<String> mayShift = staying.stream()
                .filter(c -> c.poles().size() == 1 && panel.exclusive().isEmpty())
                .flatMap(c -> c.was().stream())
                .collect(Collectors.toSet());
        SubpanelSpaces.Feeder at =
                SubpanelSpaces.feeder(panel, PanelLegs.of(house.sources(), panel), gone, mayShift, poles);
        if (at == null) {
            return Written.none("In " + panel.name() + " there is no place for the feeder's breaker of " + poles
                    + (poles == 1
                            ? " pole."
                            : " poles, two spaces under each other on unlike legs, once those have moved."));
        }
        Map<String, List<String>> spaces = SubpanelSpaces.place(wanted, circuits, legs);
        moves.addAll(further.hang(circuits, spaces));
        moves.addAll(further.source());
        int number = 0;
        for (Movable m : sets) {
            whyNot = lead(m, ++number, spaces);
            if (!whyNot.isEmpty()) {
                return Written.none(whyNot);
            }
        }
        moves.addAll(further.feed(at));
        return new Written(moves, "");
    }

    private String whyNot(List<Circuit> circuits) {
        boolean isSplit = panel.supply().stream()
                .map(s -> house.sources().get(s))
                .filter(Objects::nonNull)
                .allMatch(s -> s.system() == SourceSystem.SPLIT_PHASE_120_240);
        if (!isSplit || PanelLegs.of(house.sources(), panel).count() != 2) {
            return "Moves are written for panels on two legs of 120/240 V only.";
        }
        for (Circuit c : circuits) {
            if (c.poles().stream().anyMatch(p -> p.wires().isEmpty())) {
                return "What lands on " + c.name() + " is not recorded, so its wires cannot be named.";
            }
        }
        return circuits.isEmpty() ? "Nothing moves." : "";
    }

    /** {@return why a set cannot be led over; empty where its moves are written} */
    private String lead(Movable set, int number, Map<String, List<String>> spaces) {
        String cable = further.fresh(further.name() + "-" + number);
        List<Wire> wires = new ArrayList<>();
        List<Move> after = new ArrayList<>();
        double largest = 0;
        for (Circuit c : set.circuits()) {
            Double a = c.amperes();
            largest = a == null ? largest : Math.max(largest, a);
        }
        int hots = 0;
        for (Circuit c : set.circuits()) {
            Double a = c.amperes();
            List<String> to = Objects.requireNonNull(spaces.get(c.name()));
            for (int i = 0; i < to.size(); i++) {
                String hot = "hot-" + ++hots;
                wires.add(FurtherPanel.wire(
                        hot, COLOURS.get((hots - 1) % COLOURS.size()), a == null ? null : limits.copperFor(a)));
                led(cable + "." + hot, c.poles().get(i).wires(), to.get(i), after);
            }
        }
        Map<String, String> neutrals = neutrals(set.circuits(), spaces);
        for (Circuit c : set.circuits()) {
            if (c.poles().size() == 1 && neutrals(List.of(c), spaces).isEmpty()) {
                return "Where the neutral of " + c.name() + " lands is not recorded.";
            }
        }
        int count = 0;
        for (Map.Entry<String, String> e : neutrals.entrySet()) {
            String neutral = "neutral-" + ++count;
            wires.add(FurtherPanel.wire(neutral, "white", largest == 0 ? null : limits.copperFor(largest)));
            led(cable + "." + neutral, List.of(e.getKey()), e.getValue(), after);
        }
        wires.add(FurtherPanel.wire("ground", "green", largest == 0 ? null : UpgradeData.upTo("grounds", largest)));
        moves.add(new Move.AddCable(further.raceway(cable, panel.name(), wires)));
        moves.add(new Move.Shift(panel.name(), cable + ".ground", "g"));
        moves.add(new Move.Shift(further.name(), cable + ".ground", "g"));
        moves.addAll(after);
        set.circuits().forEach(c -> moves.add(new Move.ChangeBreaker(panel.name(), c.was(), null)));
        return "";
    }

    private void led(String wire, List<String> landed, String to, List<Move> after) {
        List<String> ends = new ArrayList<>(landed);
        ends.add(wire);
        after.add(new Move.Splice(panel.name(), ends, Joint.By.TWIST_ON));
        after.add(new Move.Shift(further.name(), wire, to));
    }

    /**
     * The neutrals that go along, and where each lands then: those by which what the poles feed returns, and those that lie in a cable all
     * of whose hots go along.
     */
    private Map<String, String> neutrals(List<Circuit> circuits, Map<String, List<String>> spaces) {
        Set<String> poles = new LinkedHashSet<>();
        Set<String> hots = new LinkedHashSet<>();
        Map<String, String> own = new LinkedHashMap<>();
        for (Circuit c : circuits) {
            c.poles().forEach(p -> {
                poles.add(panel.name() + "." + p.terminal());
                hots.addAll(p.wires());
            });
            c.neutrals()
                    .forEach(n -> own.put(
                            n, Objects.requireNonNull(spaces.get(c.name())).get(0) + ".neutral"));
        }
        Map<String, String> all = new LinkedHashMap<>();
        Neutrals.landings(wiring, panel.name(), poles).forEach(n -> all.put(n, own.getOrDefault(n, "n")));
        for (Joint j : panel.joints()) {
            boolean isNeutral = j.members().stream()
                    .anyMatch(r -> r instanceof Ref.PanelTerminal t
                            && (t.terminal().equals("n") || t.terminal().endsWith(".neutral")));
            if (isNeutral) {
                j.members().stream()
                        .filter(r -> r instanceof Ref.WireEnd w && isWith(w, hots))
                        .map(Ref::said)
                        .forEach(n -> all.putIfAbsent(n, own.getOrDefault(n, "n")));
            }
        }
        return all;
    }

    /** Whether hots of its cable land here and all of them are among these; bare wires are grounds. */
    private boolean isWith(Ref.WireEnd wire, Set<String> hots) {
        Cable c = Objects.requireNonNull(house.cables().get(wire.cable()));
        boolean isGround = c.wires().stream()
                .filter(w -> w.name().equals(wire.wire()))
                .anyMatch(w ->
                        w.metal() || w.colour().equals("bare") || w.colour().equals("green"));
        List<String> its = panel.joints().stream()
                .filter(j -> j.members().stream()
                        .anyMatch(r -> r instanceof Ref.PanelTerminal t
                                && Character.isDigit(t.terminal().charAt(0))
                                && !t.terminal().endsWith(".neutral")))
                .flatMap(j -> j.members().stream())
                .filter(r -> r instanceof Ref.WireEnd w && w.cable().equals(wire.cable()))
                .map(Ref::said)
                .toList();
        return !isGround && !its.isEmpty() && hots.containsAll(its);
    }
}
