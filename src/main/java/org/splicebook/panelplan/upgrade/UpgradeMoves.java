package org.splicebook.panelplan.upgrade;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.schedule.PlacedUnit;
import org.splicebook.panelplan.schedule.Schedule;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** The moves that make a plan: service, panel, neutrals to their breakers, bonds behind it, new circuits. */
final class UpgradeMoves {
    private final House house;
    private final Panel was;
    private final Wanted wanted;
    private final List<Circuit> circuits;
    private final Schedule schedule;
    private final Notes notes;

    UpgradeMoves(House house, Panel was, Wanted wanted, List<Circuit> circuits, Schedule schedule, Notes notes) {
        this.house = house;
        this.was = was;
        this.wanted = wanted;
        this.circuits = circuits;
        this.schedule = schedule;
        this.notes = notes;
    }

    List<Move> all(NewCircuits maker, List<NewCircuits.Made> made) {
        List<Move> moves = new ArrayList<>();
        services(moves);
        panel(moves);
        for (Circuit c : circuits.stream().filter(x -> !x.isNew()).toList()) {
            String terminal = neutral(c);
            c.neutrals().stream()
                    .filter(w -> !isOnBreaker(w))
                    .forEach(w -> moves.add(new Move.Shift(was.name(), w, terminal)));
        }
        house.panels().values().stream()
                .filter(p -> !p.name().equals(was.name()) && p.bonded())
                .forEach(p -> bond(p, moves));
        for (NewCircuits.Made m : made) {
            PlacedUnit p = schedule.of(m.circuit().name());
            List<String> spaces = new ArrayList<>();
            for (int i = 0; i < p.spaces().size(); i++) {
                spaces.add(p.space(i));
            }
            moves.addAll(maker.moves(m, was.name(), spaces));
        }
        return moves;
    }

    /** A service that is smaller than the new main is made as large. */
    private void services(List<Move> moves) {
        for (String s : was.supply()) {
            Source source = house.sources().get(s);
            Quantity rating = source == null ? null : source.rating();
            if (source == null
                    || (rating != null && rating.base() >= wanted.kind().main())) {
                continue;
            }
            if (rating == null) {
                notes.asked()
                        .add("What is the rating of " + s + "? The new main is "
                                + wanted.kind().main() + " A.");
                continue;
            }
            moves.add(new Move.ChangeSource(new Source(
                    source.name(),
                    source.kind(),
                    source.system(),
                    amperes(wanted.kind().main()),
                    source.bond(),
                    source.at(),
                    source.from(),
                    source.volts(),
                    source.transformer(),
                    null,
                    Provenance.NONE)));
            if (source.drop() != null) {
                notes.asked().add("Which conductors bring the new service? Those recorded are of the old one.");
            }
        }
    }

    private void panel(List<Move> moves) {
        Map<String, Breaker> breakers = new LinkedHashMap<>();
        Map<String, String> landings = new LinkedHashMap<>();
        Map<String, String> keys = new LinkedHashMap<>();
        schedule.placed().stream()
                .sorted(java.util.Comparator.comparingInt(
                        p -> p.spaces().stream().min(Integer::compare).orElse(0)))
                .forEach(p -> {
                    Circuit c = circuit(p.unit());
                    Breaker b = breaker(c, p);
                    breakers.put(b.key(), b);
                    c.was().forEach(k -> keys.put(k, b.key()));
                    for (int i = 0; i < p.spaces().size(); i++) {
                        if (!c.poles().get(i).terminal().isEmpty()) {
                            land(landings, c.poles().get(i).terminal(), p.space(i));
                        }
                    }
                });
        for (Breaker old : was.breakers().values()) {
            if (old.neutralTerminal()) {
                Circuit c = circuits.stream()
                        .filter(x -> x.was().contains(old.key()))
                        .findFirst()
                        .orElse(null);
                land(
                        landings,
                        old.spaces().get(0) + ".neutral",
                        c == null || c.neutrals().isEmpty() ? "n" : neutral(c));
            }
        }
        moves.add(new Move.ReplacePanel(hung(breakers, keys), landings));
    }

    private static void land(Map<String, String> landings, String from, String to) {
        landings.put(from, to);
    }

    private Panel hung(Map<String, Breaker> breakers, Map<String, String> keys) {
        boolean isService = was.supply().stream().anyMatch(s -> house.sources().containsKey(s));
        List<List<String>> exclusive = was.exclusive().stream()
                .map(g -> g.stream().map(k -> keys.getOrDefault(k, k)).toList())
                .toList();
        new Interlocks(was, wanted).tell(circuits, notes);
        int poles = Math.max(2, schedule.task().frame().legs());
        return new Panel(
                was.name(),
                was.place(),
                was.supply(),
                wanted.kind().spaces(),
                amperes(wanted.kind().rating()),
                new MainDisconnect(
                        poles,
                        OvercurrentType.BREAKER,
                        amperes(wanted.kind().main()),
                        java.util.Set.of(),
                        Breaker.Position.ON,
                        Provenance.NONE),
                breakers,
                List.of(),
                Map.of(),
                exclusive,
                Map.of(),
                Map.of(),
                isService && was.bonded(),
                null,
                was.electrode(),
                List.of(),
                was.complete(),
                Provenance.NONE);
    }

    private static Breaker breaker(Circuit c, PlacedUnit p) {
        boolean neutral = !c.neutrals().isEmpty();
        return new Breaker(
                List.of(p.key().split("\\+")),
                OvercurrentType.BREAKER,
                c.amperes() == null ? null : amperes(c.amperes()),
                c.protects(),
                neutral,
                null,
                true,
                Breaker.Position.ON,
                c.label(),
                Provenance.NONE);
    }

    private Circuit circuit(String name) {
        return circuits.stream().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
    }

    /** The neutral terminal of a circuit's breaker, which is named by its first space. */
    private String neutral(Circuit c) {
        return List.of(schedule.of(c.name()).key().split("\\+")).get(0) + ".neutral";
    }

    private boolean isOnBreaker(String wire) {
        return was.joints().stream()
                .map(Joint::members)
                .anyMatch(m -> m.stream().anyMatch(r -> r.said().equals(wire))
                        && m.stream()
                                .anyMatch(r -> r instanceof Ref.PanelTerminal t
                                        && t.terminal().endsWith(".neutral")));
    }

    /** A panel behind gets its bond taken out where its feeder brings a ground of its own; else that comes first. */
    private void bond(Panel p, List<Move> moves) {
        if (house.sources().values().stream().anyMatch(s -> p.name().equals(s.bond()))) {
            return;
        }
        boolean feederHasGround = p.supply().stream().anyMatch(s -> hasGround(p, s));
        boolean bareOnNeutral = p.joints().stream()
                .filter(j -> j.members().contains(new Ref.PanelTerminal("n")))
                .flatMap(j -> j.members().stream())
                .anyMatch(r -> isGroundWire(r));
        if (!feederHasGround || bareOnNeutral) {
            notes.separate()
                    .add(
                            "Panel " + p.name() + " has neutral and ground joined"
                                    + (feederHasGround
                                            ? ", and grounds on its neutral bar: part them first."
                                            : ", and its feeder brings no ground: it needs one before the bond comes out (250.32(B), 408.40)."));
            return;
        }
        moves.add(new Move.ReplacePanel(
                new Panel(
                        p.name(),
                        p.place(),
                        p.supply(),
                        p.spaces(),
                        p.rating(),
                        p.main(),
                        p.breakers(),
                        p.ties(),
                        p.pullOuts(),
                        p.exclusive(),
                        p.legs(),
                        p.buses(),
                        false,
                        p.neutralFuse(),
                        p.electrode(),
                        List.of(),
                        p.complete(),
                        p.about()),
                Map.of()));
    }

    private boolean hasGround(Panel p, String cable) {
        return p.joints().stream()
                .filter(j -> j.members().contains(new Ref.PanelTerminal("g")))
                .flatMap(j -> j.members().stream())
                .anyMatch(r -> r instanceof Ref.WireEnd w && w.cable().equals(cable));
    }

    private boolean isGroundWire(Ref r) {
        if (!(r instanceof Ref.WireEnd w)) {
            return false;
        }
        Cable c = Objects.requireNonNull(house.cables().get(w.cable()));
        @Nullable
        Wire wire = c.wires().stream()
                .filter(x -> x.name().equals(w.wire()))
                .findFirst()
                .orElse(null);
        return wire != null
                && (wire.metal()
                        || wire.colour().equals("bare")
                        || wire.colour().equals("green"));
    }

    private static Quantity amperes(double amperes) {
        return new Quantity(BigDecimal.valueOf(Math.round(amperes)), Unit.AMPERE);
    }
}
